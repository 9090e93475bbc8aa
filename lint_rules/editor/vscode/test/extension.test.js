"use strict";

const assert = require("node:assert");
const fs = require("node:fs");
const Module = require("node:module");
const os = require("node:os");
const path = require("node:path");
const test = require("node:test");

/** The extension with a stand-in for the editor: what the writer answers is given, what is done is kept. */
function editor(answers) {
  const done = [];
  const commands = {};
  const nothing = () => ({ dispose() {} });
  const Uri = { file: (fsPath) => ({ scheme: "file", fsPath }) };
  const vscode = {
    ProgressLocation: { Notification: 15 },
    Uri,
    RelativePattern: class {},
    commands: {
      registerCommand: (name, run) => ((commands[name] = run), { dispose() {} }),
      executeCommand: async (name, ...words) => done.push([name, ...words]),
    },
    window: {
      createOutputChannel: () => ({ appendLine() {}, show() {} }),
      showInformationMessage: (text) => (done.push(["said", text]), answers.message || Promise.resolve()),
      showErrorMessage: async (text) => done.push(["fault", text]),
      showOpenDialog: async () => answers.folder && [Uri.file(answers.folder)],
      showInputBox: async () => answers.name,
    },
    workspace: {
      workspaceFolders: (answers.open || []).map((one) => ({ uri: Uri.file(one) })),
      textDocuments: [],
      getConfiguration: () => ({ get: (name) => (name === "command" ? answers.command || "" : "") }),
      findFiles: async () => [],
      onDidOpenTextDocument: nothing,
      onDidChangeWorkspaceFolders: nothing,
      onDidChangeConfiguration: nothing,
    },
  };
  class LanguageClient {
    constructor(_, __, run) {
      this.run = run;
    }
    async start() {
      done.push(["serve", this.run.command, ...this.run.args]);
    }
    async stop() {
      done.push(["stopped"]);
    }
  }
  const real = Module._load;
  Module._load = (name, ...rest) =>
    name === "vscode" ? vscode : name === "vscode-languageclient/node" ? { LanguageClient } : real(name, ...rest);
  delete require.cache[require.resolve("../src/extension")];
  const extension = require("../src/extension");
  Module._load = real;
  const storage = fs.mkdtempSync(path.join(os.tmpdir(), "hornbook-"));
  const context = { subscriptions: [], globalStorageUri: Uri.file(storage), extensionPath: storage, extension: { id: "hornbook.hornbook" } };
  extension.activate(context);
  return { commands, done };
}

function place(said) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "hornbook-"));
  const hornbook = path.join(folder, "hornbook");
  fs.writeFileSync(hornbook, `#!/bin/sh\n${said}\n`, { mode: 0o755 });
  return { folder, hornbook };
}

async function seen(done, wanted) {
  for (let turn = 0; turn < 200; turn++) {
    const found = done.find(wanted);
    if (found) return found;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`never: ${JSON.stringify(done)}`);
}

const skip = process.platform === "win32";
const HORNBOOK = 'case "$1" in --version) echo hornbook 0.2.0;; start) mkdir "$2" || exit 2;; esac';

test("a course is started where the writer says, and opened", { skip }, async () => {
  const { folder, hornbook } = place(HORNBOOK);
  const { commands, done } = editor({ command: hornbook, folder, name: "my kites" });
  await commands["hornbook.startCourse"]();
  assert.ok(fs.statSync(path.join(folder, "my kites")).isDirectory());
  const opened = await seen(done, ([name]) => name === "vscode.openFolder");
  assert.strictEqual(opened[1].fsPath, path.join(folder, "my kites"));
});

test("what keeps a course from being started is told, and nothing is opened", { skip }, async () => {
  const { folder, hornbook } = place('case "$1" in --version) echo hornbook 0.2.0;; *) echo There is a course. >&2; exit 2;; esac');
  const { commands, done } = editor({ command: hornbook, folder, name: "kites" });
  await commands["hornbook.startCourse"]();
  assert.deepStrictEqual(await seen(done, ([name]) => name === "fault"), ["fault", "hornbook: There is a course."]);
  assert.ok(!done.some(([name]) => name === "vscode.openFolder"));
});

test("the server is started where there is a course, and only there", { skip }, async () => {
  const { folder, hornbook } = place(HORNBOOK);
  const without = editor({ command: hornbook, open: [folder] });
  await without.commands["hornbook.restart"]();
  assert.ok(!without.done.some(([name]) => name === "serve"));
  fs.writeFileSync(path.join(folder, "course.yaml"), "title: Kites\n");
  const { done } = editor({ command: hornbook, open: [folder] });
  assert.deepStrictEqual(await seen(done, ([name]) => name === "serve"), ["serve", hornbook, "serve", "--stdio"]);
});

test("a question that is left open keeps nothing from starting", { skip }, async () => {
  const { folder } = place(HORNBOOK);
  fs.writeFileSync(path.join(folder, "course.yaml"), "title: Kites\n");
  const before = process.env.PATH;
  process.env.PATH = "";
  try {
    const { commands, done } = editor({ open: [folder], message: new Promise(() => {}) });
    await seen(done, ([name, text]) => name === "said" && text.includes("not on this computer"));
    const venv = path.join(folder, ".venv", "bin");
    fs.mkdirSync(venv, { recursive: true });
    fs.writeFileSync(path.join(venv, "hornbook"), "#!/bin/sh\necho hornbook 0.2.0\n", { mode: 0o755 });
    await commands["hornbook.restart"]();
    assert.ok(done.some(([name]) => name === "serve"));
  } finally {
    process.env.PATH = before;
  }
});
