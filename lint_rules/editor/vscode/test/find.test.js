"use strict";

const assert = require("node:assert");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const test = require("node:test");
const { candidates, findHornbook, inCourse, output, programIn } = require("../src/find");
const { findPython, install, packed } = require("../src/install");

function place() {
  return fs.mkdtempSync(path.join(os.tmpdir(), "hornbook-"));
}

function program(file, said) {
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, `#!/bin/sh\n${said}\n`, { mode: 0o755 });
  return file;
}

test("the setting alone counts where there is one", () => {
  const where = { setting: "tools/hornbook", folders: ["/books"], own: "/own", searched: "/usr/bin", platform: "linux" };
  assert.deepStrictEqual(candidates(where), ["/books/tools/hornbook"]);
});

test("the folder's environment comes before what was installed from here, and that before the PATH", () => {
  const where = { setting: "", folders: ["/books"], own: "/own", searched: "/usr/bin:.:", platform: "linux" };
  const wanted = ["/books/.venv/bin/hornbook", "/books/venv/bin/hornbook", "/own/bin/hornbook", "/usr/bin/hornbook"];
  assert.deepStrictEqual(candidates(where), wanted);
});

test("Windows keeps programs elsewhere", () => {
  assert.match(programIn("books", "hornbook", "win32"), /Scripts.hornbook\.exe$/);
});

test("a program that is broken or something else is passed over", { skip: process.platform === "win32" }, async () => {
  const folder = place();
  program(path.join(folder, ".venv/bin/hornbook"), "exit 3");
  program(path.join(folder, "venv/bin/hornbook"), "echo a horn, and a book");
  const right = program(path.join(folder, "bin/hornbook"), "echo hornbook 0.2.0");
  const where = { setting: "", folders: [folder], own: "", searched: path.join(folder, "bin") };
  assert.deepStrictEqual(await findHornbook(where), { program: right, version: "0.2.0" });
  assert.strictEqual(await findHornbook({ ...where, searched: "" }), null);
});

test("what a program complains of is what is told", { skip: process.platform === "win32" }, async () => {
  const bad = program(path.join(place(), "bad"), "echo The course is there already. >&2; exit 2");
  await assert.rejects(output(bad, []), /^Error: The course is there already\.$/);
});

test("a course is seen from inside it, and from nowhere else", () => {
  const folder = place();
  fs.mkdirSync(path.join(folder, "book/level-1"), { recursive: true });
  fs.writeFileSync(path.join(folder, "book/course.yaml"), "title: Kites\n");
  assert.ok(inCourse(path.join(folder, "book/level-1")));
  assert.ok(!inCourse(folder));
});

test("only a Python that is new enough is taken", async () => {
  const asked = [];
  const ask = async (name) => {
    asked.push(name);
    if (name === "python3") return "3 9";
    if (name === "python") throw new Error("not there");
    return "3 12";
  };
  assert.strictEqual(await findPython("linux", ask), "python3.14");
  assert.deepStrictEqual(asked, ["python3", "python", "python3.14"]);
  assert.strictEqual(await findPython("linux", async () => "2 7"), null);
});

test("what came with the plug-in is installed in a place of its own, held to its versions", async () => {
  const folder = place();
  fs.writeFileSync(path.join(folder, "hornbook-0.2.0-py3-none-any.whl"), "");
  fs.writeFileSync(path.join(folder, "constraints.txt"), "");
  const calls = [];
  const ask = async (name, words) => (calls.push([name, ...words]), "3 12");
  const venv = path.join(folder, "own", "venv");
  assert.strictEqual(await install(venv, folder, () => {}, ask), programIn(venv, "hornbook"));
  assert.deepStrictEqual(calls[1].slice(1), ["-m", "venv", venv]);
  assert.strictEqual(calls[2][0], programIn(venv, "python"));
  assert.deepStrictEqual(calls[2].slice(-3), packed(folder));
});

test("without Python nothing is made, and what to do is said", async () => {
  const folder = place();
  fs.writeFileSync(path.join(folder, "hornbook-0.2.0-py3-none-any.whl"), "");
  const venv = path.join(folder, "own");
  await assert.rejects(install(venv, folder, () => {}, async () => Promise.reject(new Error("no"))), /Install Python/);
  assert.ok(!fs.existsSync(venv));
  assert.throws(() => packed(path.join(folder, "nowhere")), /packed without hornbook/);
});
