"use strict";
// Filters the list of points, and says how many are shown. Without it the page shows all of them.
(() => {
  const form = document.getElementById("filter");

  // A drawing or a table that is wider than the page can be scrolled with the keyboard too.
  function scrollable() {
    for (const box of document.querySelectorAll(".scroll")) {
      if (box.scrollWidth > box.clientWidth + 1) {
        box.tabIndex = 0;
      } else {
        box.removeAttribute("tabindex");
      }
    }
  }

  for (const details of document.querySelectorAll("details")) {
    details.addEventListener("toggle", scrollable);
  }
  window.addEventListener("resize", scrollable);
  scrollable();

  if (!form) {
    return;
  }
  const byUnit = document.getElementById("by-unit");
  const byRule = document.getElementById("by-rule");
  const severities = [...form.querySelectorAll("input[name=severity]")];
  const shown = document.getElementById("shown");
  const heading = document.getElementById("findings-title");
  const units = [...document.querySelectorAll("section.unit")].map((section) => ({
    section,
    points: [...section.querySelectorAll("li.point")],
  }));
  const total = units.reduce((sum, unit) => sum + unit.points.length, 0);

  function filter() {
    const wanted = new Set(severities.filter((box) => box.checked).map((box) => box.value));
    let count = 0;
    for (const { section, points } of units) {
      let here = 0;
      for (const point of points) {
        const { rule, severity } = point.dataset;
        const right = !byUnit.value || point.dataset.units.split("\n").includes(byUnit.value);
        point.hidden = !(right && (!byRule.value || rule === byRule.value) && wanted.has(severity));
        here += point.hidden ? 0 : 1;
      }
      section.hidden = here === 0;
      count += here;
    }
    const noun = total === 1 ? "point" : "points";
    shown.textContent = count === total ? `All ${total} ${noun} shown.` : `${count} of ${total} ${noun} shown.`;
  }

  function choose(unit, rule, severity) {
    byUnit.value = unit;
    byRule.value = rule;
    for (const box of severities) {
      box.checked = !severity || box.value === severity;
    }
    filter();
  }

  // A link in the text or in a table of numbers shows just what it speaks of.
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-show]");
    if (link) {
      event.preventDefault();
      const show = new URLSearchParams(link.dataset.show);
      choose(show.get("unit") || "", show.get("rule") || "", show.get("severity") || "");
      heading.focus({ preventScroll: true });
      document.getElementById("findings").scrollIntoView();
    }
  });

  // A link to one finding must find it, whatever the filter hides.
  function reveal() {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    const point = target && target.closest("li.point");
    if (!point) {
      return;
    }
    const folded = target.closest("details");
    if (folded) {
      folded.open = true;
    }
    if (point.hidden) {
      choose("", "", "");
    }
    target.scrollIntoView();
  }

  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("change", filter);
  document.getElementById("all").addEventListener("click", () => choose("", "", ""));
  window.addEventListener("hashchange", reveal);
  form.hidden = false;
  filter();
  reveal();
})();
