// house.mjs - what every walk needs: the program on a shelf of its own, a browser that tells of every request, and a list of walks with their outcome.
import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

export const browserOf = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: [
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });

const freePort = () =>
  new Promise((found, failed) => {
    const probe = createServer();
    probe.on("error", failed);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => found(port));
    });
  });

/** The program on a shelf of its own. `kill` is kill -9; `start` again serves the same shelf at the same address. */
export class Program {
  static async open(binary, options = []) {
    const program = new Program();
    program.binary = binary;
    program.options = options;
    program.folder = await mkdtemp(join(tmpdir(), "bloomset-walk-"));
    program.shelf = join(program.folder, "walk.shelf");
    program.port = await freePort();
    await program.start();
    return program;
  }
  get url() {
    return `http://127.0.0.1:${this.port}`;
  }
  async start() {
    this.child = spawn(this.binary, ["open", "--port", String(this.port), "--shelf", this.shelf, "--no-browser", ...this.options], {
      stdio: ["ignore", "pipe", "pipe"],
    });
    this.said = "";
    for (const stream of [this.child.stdout, this.child.stderr]) stream.on("data", (bytes) => (this.said += bytes));
    for (let tries = 0; tries < 200; tries++) {
      if (this.child.exitCode !== null) throw new Error(`the program ended: ${this.said}`);
      if (
        await fetch(`${this.url}/api/v1/hello`).then(
          (r) => r.ok,
          () => false,
        )
      )
        return;
      await new Promise((rest) => setTimeout(rest, 25));
    }
    throw new Error(`the program does not answer: ${this.said}`);
  }
  async kill(signal = "SIGKILL") {
    if (this.child.exitCode !== null || this.child.signalCode !== null) return;
    const ended = new Promise((done) => this.child.once("exit", done));
    this.child.kill(signal);
    await ended;
  }
  async close() {
    await this.kill("SIGTERM");
    await rm(this.folder, { recursive: true, force: true });
  }
  async text(name) {
    const answer = await fetch(`${this.url}/api/v1/documents/formula/${encodeURIComponent(name)}`);
    return answer.ok ? (await answer.json()).text : null;
  }
}

/** Puts a formula on the program's shelf, as a new document. */
export async function put(program, name, text, kind = "formula") {
  const answer = await fetch(`${program.url}/api/v1/documents/${kind}/${encodeURIComponent(name)}`, {
    method: "PUT",
    headers: { "Content-Type": "application/json", "If-None-Match": "*" },
    body: JSON.stringify({ text }),
  });
  if (!answer.ok) throw new Error(`“${name}” is not taken: ${answer.status} ${await answer.text()}`);
}
/** The largest formula there is, as “Long Pier”. */
export const putLarge = async (program) =>
  put(program, "Long Pier", await readFile(new URL("../../bench/large.toml", import.meta.url), "utf8"));

/** A window of its own: no outside request goes unseen, no script error goes unsaid. */
export async function windowOn(browser, program, { width = 1280, height = 900, ...more } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, ...more });
  const outside = [];
  const errors = [];
  context.on("request", (request) => {
    const { protocol, hostname } = new URL(request.url());
    if (hostname !== "127.0.0.1" && protocol !== "blob:") outside.push(request.url());
  });
  // The three hints of a first visit have a walk of their own.
  await context.addInitScript(() => {
    if (!sessionStorage.getItem("walk.hints"))
      for (const name of ["pen", "targets", "findings"]) localStorage.setItem(`bloomset.hint.${name}`, "seen");
  });
  const page = await context.newPage();
  page.on("pageerror", (fault) => errors.push(String(fault)));
  page.on("console", (line) => {
    if (line.type() === "error" && !/Failed to load resource/.test(line.text())) errors.push(line.text());
  });
  page.setDefaultTimeout(8000);
  return {
    context,
    page,
    outside,
    errors,
    go: (path = "/") => page.goto(`${program.url}${path}`, { waitUntil: "networkidle" }),
    close: () => context.close(),
  };
}

export function must(holds, says) {
  if (!holds) throw new Error(says);
}

const walks = [];
/** `expected`: what the browser may say on its console, where a walk provokes it. */
export const walk = (name, act, { expected = null } = {}) => walks.push({ name, act, expected });

/** Runs every walk on a program and a window of its own, one after the other. `only`: those whose name holds it. */
export async function runAll(binary, only = "") {
  const browser = await browserOf();
  let passed = 0;
  let failed = 0;
  for (const { name, act, expected } of walks.filter((one) => one.name.includes(only))) {
    const began = Date.now();
    const program = await Program.open(binary);
    const window = await windowOn(browser, program);
    try {
      await act({ browser, program, ...window });
      must(window.outside.length === 0, `asked outside: ${window.outside.join(", ")}`);
      const errors = window.errors.filter((line) => !expected?.test(line));
      must(errors.length === 0, `the page said: ${errors.join(" | ")}`);
      passed += 1;
      console.log(`ok      ${name} (${Date.now() - began} ms)`);
    } catch (fault) {
      failed += 1;
      console.log(`FAILED  ${name}: ${fault.stack ?? fault}`);
    } finally {
      await window.close();
      await program.close();
    }
  }
  await browser.close();
  console.log(`${passed} passed, ${failed} failed`);
  return failed === 0 && passed > 0;
}
