"use strict";
// Shows part of the proof: by unit, lesson, rule and weight; says how much is shown; steps from query to query. What is
// chosen stands in the address. Without it the page shows everything.
(() => {
  const form = document.getElementById("filter");

  // A drawing or a table that is wider than the page can be scrolled with the keyboard too. Those of the units are
  // measured when they come near: to measure them all would set the whole book at once.
  function measure(box) {
    if (box.scrollWidth > box.clientWidth + 1) {
      box.tabIndex = 0;
    } else {
      box.removeAttribute("tabindex");
    }
  }

  const boxes = [...document.querySelectorAll(".scroll")];
  const near = new Set();
  const watch = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      if (isIntersecting) {
        near.add(target);
        measure(target);
      }
    }
  }, { rootMargin: "50%" });
  for (const box of boxes) {
    if (box.closest("section.unit")) {
      watch.observe(box);
    } else {
      near.add(box);
      measure(box);
    }
  }
  window.addEventListener("resize", () => near.forEach(measure));
  for (const details of document.querySelectorAll("details")) {
    details.addEventListener("toggle", () => details.querySelectorAll(".scroll").forEach(measure));
  }

  if (!form) {
    return;
  }
  const byUnit = document.getElementById("by-unit");
  const byLesson = document.getElementById("by-lesson");
  const byRule = document.getElementById("by-rule");
  const whole = document.getElementById("whole");
  const severities = [...form.querySelectorAll("input[name=severity]")];
  const shown = document.getElementById("shown");
  const heading = document.getElementById("proof-title");
  const points = [...document.querySelectorAll("#proof li.point")];
  const others = [...document.querySelectorAll("#proof li.again")];
  const marks = [...document.querySelectorAll("#proof mark[data-n]")];
  const units = [...document.querySelectorAll("section.unit")];
  const lessons = [...document.querySelectorAll("section.lesson")];
  const groups = [...byLesson.querySelectorAll("optgroup")];
  const total = points.length;

  const unit = () => (byUnit ? byUnit.value : "");
  const has = (list, one) => list.split("\n").includes(one);

  function wanted(point, weights) {
    const { rule, severity } = point.dataset;
    return (
      (!unit() || has(point.dataset.units, unit())) &&
      (!byLesson.value || has(point.dataset.lessons, byLesson.value)) &&
      (!byRule.value || rule === byRule.value) &&
      weights.has(severity)
    );
  }

  function filter() {
    const weights = new Set(severities.filter((box) => box.checked).map((box) => box.value));
    const numbers = new Set();
    for (const point of points) {
      point.hidden = !wanted(point, weights);
      if (!point.hidden) {
        numbers.add(point.dataset.n);
      }
    }
    for (const note of others) {
      note.hidden = !numbers.has(note.dataset.n);
    }
    for (const mark of marks) {
      mark.classList.toggle("off", !mark.dataset.n.split(" ").some((number) => numbers.has(number)));
    }
    for (const section of units) {
      const path = section.dataset.path;
      const elsewhere = byLesson.value && !byLesson.value.startsWith(`${path}#`);
      section.hidden = Boolean((unit() && path !== unit()) || elsewhere);
    }
    for (const section of lessons) {
      section.hidden = Boolean(byLesson.value && section.dataset.lesson !== byLesson.value);
    }
    for (const group of groups) {
      group.hidden = group.disabled = Boolean(unit() && group.dataset.path !== unit());
    }
    document.documentElement.classList.toggle("whole", whole.checked);
    document.documentElement.classList.toggle("one-lesson", byLesson.value !== "");
    const noun = total === 1 ? "query" : "queries";
    const count = numbers.size;
    const what = [unit() && byUnit.selectedOptions[0].text.replace(/ \(\d+\)$/, ""),
      byLesson.value && byLesson.selectedOptions[0].text, byRule.value,
      weights.size < severities.length && [...weights].join(" and ")].filter(Boolean).join("; ");
    shown.textContent = count === total ? `All ${total} ${noun} shown.`
      : `${count} of ${total} ${noun} shown${what ? ` (${what})` : ""}.`;
  }

  // What is chosen, as it stands in the address; nothing where everything is shown.
  function address() {
    const chosen = new URLSearchParams();
    const weights = severities.filter((box) => box.checked).map((box) => box.value);
    const set = (name, value) => value && chosen.set(name, value);
    set("unit", unit());
    set("lesson", byLesson.value);
    set("rule", byRule.value);
    set("severity", weights.length < severities.length ? weights.join(" ") || "none" : "");
    set("print", whole.checked ? "whole" : "");
    return chosen.toString();
  }

  function choose(chosen) {
    if (byUnit) {
      byUnit.value = chosen.get("unit") || "";
    }
    byLesson.value = chosen.get("lesson") || "";
    byRule.value = chosen.get("rule") || "";
    whole.checked = chosen.get("print") === "whole";
    const weights = (chosen.get("severity") || "").split(" ").filter(Boolean);
    for (const box of severities) {
      box.checked = !weights.length || weights.includes(box.value);
    }
    for (const select of [byUnit, byLesson, byRule]) {
      if (select && select.selectedIndex < 0) {
        select.value = "";
      }
    }
    filter();
  }

  function changed() {
    if (unit() && byLesson.value && !byLesson.value.startsWith(`${unit()}#`)) {
      byLesson.value = "";
    }
    filter();
    history.replaceState(null, "", `#${address()}`);
  }

  // A link in the text or in a table of numbers shows just what it speaks of.
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-show]");
    if (link) {
      event.preventDefault();
      history.pushState(null, "", `#${link.dataset.show}`);
      choose(new URLSearchParams(link.dataset.show));
      heading.focus({ preventScroll: true });
      document.getElementById("proof").scrollIntoView();
    }
  });

  // A link to one query or to its words must find it, whatever is hidden.
  function reveal() {
    const hash = location.hash.slice(1);
    if (!hash || hash.includes("=")) {
      choose(new URLSearchParams(hash));
      return;
    }
    const target = document.getElementById(decodeURIComponent(hash));
    if (!target || !target.closest("section.unit")) {
      return;
    }
    const folded = target.closest("details");
    if (folded) {
      folded.open = true;
    }
    if (target.closest("[hidden]")) {
      choose(new URLSearchParams());
    }
    target.scrollIntoView({ block: "center" });
    const point = target.closest("li.point");
    if (point) {
      point.focus({ preventScroll: true });
    }
  }

  function step(by) {
    const seen = points.filter((point) => point.checkVisibility());
    if (!seen.length) {
      return;
    }
    const now = seen.indexOf(document.activeElement.closest("li.point"));
    const top = seen.findIndex((point) => point.getBoundingClientRect().top > 120);
    const next = now >= 0 ? now + by : by > 0 ? Math.max(top, 0) : (top < 0 ? seen.length : top) - 1;
    const point = seen[Math.min(Math.max(next, 0), seen.length - 1)];
    point.focus({ preventScroll: true });
    point.scrollIntoView({ block: "center" });
  }

  document.addEventListener("keydown", (event) => {
    if (event.key === "F8" && !event.ctrlKey && !event.altKey && !event.metaKey) {
      event.preventDefault();
      step(event.shiftKey ? -1 : 1);
    }
  });
  document.getElementById("previous").addEventListener("click", () => step(-1));
  document.getElementById("next").addEventListener("click", () => step(1));
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("change", changed);
  document.getElementById("all").addEventListener("click", () => {
    choose(new URLSearchParams());
    history.replaceState(null, "", "#proof");
  });
  window.addEventListener("hashchange", reveal);
  window.addEventListener("popstate", reveal);
  form.hidden = false;
  document.getElementById("step-buttons").hidden = false;
  shown.textContent = `All ${total} ${total === 1 ? "query" : "queries"} shown.`;
  if (location.hash) {
    reveal();
  }
})();
