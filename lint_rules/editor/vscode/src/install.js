// Puts hornbook into an environment of its own. No `vscode` in here; who calls has asked the writer first.
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const { output, programIn } = require("./find");

const LEAST = [3, 11];
const NO_PYTHON =
  "hornbook needs Python 3.11 or newer, and none was found. Install Python (python.org, or your computer's own store of programs), then try again.";

/** A Python that is new enough, or null. */
async function findPython(platform = process.platform, ask = output) {
  const names = platform === "win32" ? ["py", "python"] : ["python3", "python", "python3.14", "python3.13", "python3.12", "python3.11"];
  for (const name of names) {
    try {
      const [major, minor] = (await ask(name, ["-c", "import sys; print(*sys.version_info[:2])"])).split(" ").map(Number);
      if (major > LEAST[0] || (major === LEAST[0] && minor >= LEAST[1])) return name;
    } catch {
      // not this one
    }
  }
  return null;
}

/** What is to be installed: the wheel that came with the plug-in, held to the versions that it was tried with. */
function packed(folder) {
  const wheels = fs.existsSync(folder) ? fs.readdirSync(folder).filter((name) => /^hornbook-.*\.whl$/.test(name)) : [];
  if (wheels.length !== 1) throw new Error("This plug-in was packed without hornbook. See hornbook's README for how to install it.");
  return ["-c", path.join(folder, "constraints.txt"), path.join(folder, wheels[0])];
}

/** Make the environment `venv` and install; `tell` hears what goes on. Gives the program. */
async function install(venv, wheels, tell, ask = output) {
  const what = packed(wheels);
  const python = await findPython(process.platform, ask);
  if (!python) throw new Error(NO_PYTHON);
  fs.rmSync(venv, { recursive: true, force: true });
  fs.mkdirSync(path.dirname(venv), { recursive: true });
  tell("making a place for it");
  await ask(python, ["-m", "venv", venv]);
  tell("fetching it and what it needs; this takes some minutes");
  const pip = ["-m", "pip", "install", "--disable-pip-version-check", "--no-input", ...what];
  await ask(programIn(venv, "python"), pip, { timeout: 30 * 60_000, maxBuffer: 64 * 1024 * 1024 });
  return programIn(venv, "hornbook");
}

module.exports = { NO_PYTHON, findPython, install, packed };
