// Where hornbook is on this computer. No `vscode` in here: node's own test runner tries it.
"use strict";

const { execFile } = require("node:child_process");
const fs = require("node:fs");
const path = require("node:path");

/** The folder of a virtual environment's programs, and what a program's file is called there. */
function programIn(venv, name, platform = process.platform) {
  return platform === "win32" ? path.join(venv, "Scripts", `${name}.exe`) : path.join(venv, "bin", name);
}

/** The programs to try, first the likeliest: the setting alone where there is one. */
function candidates({ setting, folders, own, searched, platform = process.platform }) {
  if (setting) {
    const base = folders[0] || "";
    return [setting.includes("/") || setting.includes("\\") ? path.resolve(base, setting) : setting];
  }
  const found = folders.flatMap((folder) => [".venv", "venv"].map((one) => programIn(path.join(folder, one), "hornbook", platform)));
  if (own) found.push(programIn(own, "hornbook", platform));
  const name = platform === "win32" ? "hornbook.exe" : "hornbook";
  const separator = platform === "win32" ? ";" : ":";
  for (const folder of (searched || "").split(separator)) {
    if (path.isAbsolute(folder)) found.push(path.join(folder, name)); // never a program of the folder that happens to be open
  }
  return found;
}

/** What a program prints; rejects when it cannot be run or fails. */
function output(program, words, options = {}) {
  return new Promise((resolve, reject) => {
    execFile(program, words, { timeout: 60_000, windowsHide: true, ...options }, (error, out, said) => {
      if (error) reject(new Error(String(said || error.message).trim()));
      else resolve(String(out).trim());
    });
  });
}

/** The first program that says it is hornbook: `{program, version}`, or null. */
async function findHornbook(where) {
  for (const program of candidates(where)) {
    if (path.isAbsolute(program) && !fs.existsSync(program)) continue;
    try {
      const said = await output(program, ["--version"]);
      const version = /^hornbook (\S+)/.exec(said);
      if (version) return { program, version: version[1] };
    } catch {
      // another one may work
    }
  }
  return null;
}

/** Whether there is a course in a folder, or around it. */
function inCourse(folder) {
  for (let here = folder; ; here = path.dirname(here)) {
    if (fs.existsSync(path.join(here, "course.yaml"))) return true;
    if (here === path.dirname(here)) return false;
  }
}

module.exports = { candidates, findHornbook, inCourse, output, programIn };
