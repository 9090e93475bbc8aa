// hornbook in VS Code and its free builds: finds or installs the program, starts its language server, starts a course.
"use strict";

const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const vscode = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");
const { findHornbook, inCourse, output } = require("./find");
const { install } = require("./install");

const PAGES = [
  { scheme: "file", language: "markdown" },
  { scheme: "file", pattern: "**/course.yaml" },
  { scheme: "file", pattern: "**/*.csv" },
];
let client; // the running server's, at most one
let starting = Promise.resolve(); // one start after another
let log;
let declined = false; // asked once a window

function folders() {
  return (vscode.workspace.workspaceFolders || []).filter((one) => one.uri.scheme === "file").map((one) => one.uri.fsPath);
}

function setting(name) {
  return vscode.workspace.getConfiguration("hornbook").get(name, "").trim();
}

function ownPlace(context) {
  return path.join(context.globalStorageUri.fsPath, "venv");
}

async function look(context) {
  const where = { setting: setting("command"), folders: folders(), own: ownPlace(context), searched: process.env.PATH };
  const found = await findHornbook(where);
  await vscode.commands.executeCommand("setContext", "hornbook.found", Boolean(found));
  return found;
}

async function courseIsOpen() {
  const open = vscode.workspace.textDocuments.filter((one) => one.uri.scheme === "file");
  if ([...folders(), ...open.map((one) => path.dirname(one.uri.fsPath))].some(inCourse)) return true;
  return (await vscode.workspace.findFiles("**/course.yaml", "**/node_modules/**", 1)).length > 0;
}

/** Start the server, if there is a course; where hornbook is missing, offer it once. */
async function start(context) {
  if (client || !(await courseIsOpen())) return;
  const found = await look(context);
  if (!found) {
    if (!declined) offer(context).catch(said); // not awaited: the writer may leave the question open
    return;
  }
  log.appendLine(`hornbook ${found.version}: ${found.program}`);
  const english = setting("english");
  const run = { command: found.program, args: ["serve", "--stdio", ...(english ? ["--english", english] : [])] };
  const options = { documentSelector: PAGES, outputChannel: log, diagnosticCollectionName: "hornbook" };
  const made = new LanguageClient("hornbook", "hornbook", run, options);
  await made.start();
  client = made;
}

async function stop() {
  const old = client;
  client = undefined;
  if (old) await old.stop();
}

/** Start or start anew, one at a time; what goes wrong is said. */
function soon(context, again = false) {
  starting = starting
    .then(() => (again ? stop() : undefined))
    .then(() => start(context))
    .catch((error) => said(error));
  return starting;
}

async function said(error) {
  log.appendLine(String(error.stack || error));
  const more = "Show what it says";
  if ((await vscode.window.showErrorMessage(`hornbook: ${error.message}`, more)) === more) log.show();
}

async function offer(context) {
  declined = true;
  const named = setting("command");
  if (named) {
    const change = "Open the setting";
    const text = `hornbook is not where the setting hornbook.command says: ${named}`;
    if ((await vscode.window.showWarningMessage(text, change)) === change) {
      await vscode.commands.executeCommand("workbench.action.openSettings", "hornbook.command");
    }
    return;
  }
  const yes = "Install…";
  const text = "This folder holds a course, and hornbook, which reads it, is not on this computer.";
  if ((await vscode.window.showInformationMessage(text, yes, "Not now")) === yes) await askAndInstall(context);
}

async function askAndInstall(context) {
  const yes = "Install";
  const venv = ownPlace(context);
  const detail = `It goes to a folder of its own, ${venv}, and needs about 400 MB there. The libraries that it needs are fetched by pip from Python's package index.`;
  const answer = await vscode.window.showInformationMessage("Install hornbook on this computer?", { modal: true, detail }, yes);
  if (answer !== yes) return false;
  await stop();
  const wheels = path.join(context.extensionPath, "dist", "wheel");
  const shown = { location: vscode.ProgressLocation.Notification, title: "Installing hornbook" };
  try {
    await vscode.window.withProgress(shown, (progress) => install(venv, wheels, (message) => progress.report({ message })));
  } catch (error) {
    fs.rmSync(venv, { recursive: true, force: true }); // half an environment would look like a whole one
    await said(error);
    return false;
  }
  await soon(context);
  await look(context);
  vscode.window.showInformationMessage("hornbook is installed.");
  return true;
}

/** Start a course in a folder that the writer picks and names, and open its first unit. */
async function startCourse(context) {
  let found = await look(context);
  if (!found && (await askAndInstall(context))) found = await look(context);
  if (!found) return;
  const near = vscode.Uri.file(folders()[0] || os.homedir());
  const picked = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    defaultUri: near,
    openLabel: "Put the course here",
    title: "In which folder is the new course to be?",
  });
  if (!picked || !picked.length) return;
  const prompt = "The name of the course's folder";
  const wrong = (name) => (/^[^\\/:*?"<>|]+$/.test(name.trim()) && !/^\.+$/.test(name.trim()) ? undefined : "A name without / or \\ is needed.");
  const name = await vscode.window.showInputBox({ prompt, value: "my_course", validateInput: wrong });
  if (!name) return;
  const course = path.join(picked[0].fsPath, name.trim());
  try {
    log.appendLine(await output(found.program, ["start", course]));
  } catch (error) {
    await said(error);
    return;
  }
  if (folders().some((folder) => !path.relative(folder, course).startsWith(".."))) {
    const unit = await firstUnit(course);
    if (unit) await vscode.window.showTextDocument(unit);
    await soon(context);
  } else {
    await vscode.commands.executeCommand("vscode.openFolder", vscode.Uri.file(course), { forceNewWindow: folders().length > 0 });
  }
}

async function firstUnit(course) {
  const found = await vscode.workspace.findFiles(new vscode.RelativePattern(course, "*/unit-*.md"), undefined, 50);
  return found.sort((a, b) => (a.fsPath < b.fsPath ? -1 : 1))[0];
}

/** The welcome page; its first step is ticked when the program is found, which it hears of only while it is open. */
async function welcome(context) {
  await vscode.commands.executeCommand("setContext", "hornbook.found", false);
  await vscode.commands.executeCommand("workbench.action.openWalkthrough", `${context.extension.id}#welcome`, false);
  await look(context);
}

function activate(context) {
  log = vscode.window.createOutputChannel("hornbook");
  const command = (name, run) => vscode.commands.registerCommand(name, run);
  context.subscriptions.push(
    log,
    command("hornbook.startCourse", () => startCourse(context)),
    command("hornbook.install", () => askAndInstall(context)),
    command("hornbook.restart", () => soon(context, true)),
    command("hornbook.showLog", () => log.show()),
    command("hornbook.welcome", () => welcome(context)),
    vscode.workspace.onDidOpenTextDocument(() => soon(context)),
    vscode.workspace.onDidChangeWorkspaceFolders(() => soon(context, true)),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration("hornbook")) {
        declined = false;
        soon(context, true);
      }
    }),
  );
  look(context).then(() => soon(context));
}

function deactivate() {
  return stop();
}

module.exports = { activate, deactivate };
