// Puts hornbook itself beside the plug-in, so that what is installed from the editor is what this repository holds.
"use strict";

const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const path = require("node:path");

const top = path.resolve(__dirname, "../../../..");
const out = path.resolve(__dirname, "../dist/wheel");
const python = process.env.PYTHON || (process.platform === "win32" ? "python" : "python3");

fs.rmSync(out, { recursive: true, force: true });
fs.mkdirSync(out, { recursive: true });
execFileSync(python, ["-m", "pip", "wheel", "-q", "--disable-pip-version-check", "--no-deps", "-w", out, top], { stdio: "inherit" });
fs.copyFileSync(path.join(top, ".ci/constraints.txt"), path.join(out, "constraints.txt"));
