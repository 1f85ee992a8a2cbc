// Pages made by the real program, and questions to the engine inside one.

import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync } from "node:zlib";

export const root = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
export const program = process.env.CALLFIT_PROGRAM ?? join(root, "build/release/bin/callfit");
/** What a page says of handles, by the program's build (target callfit_shown). */
const shownProgram = join(dirname(program), "callfit_shown");

export const fewestDraws = 500;

/** A folder with the demo's case, for what a test makes of it. */
export function demoFolder() {
  const folder = mkdtempSync(join(tmpdir(), "callfit-page-"));
  cpSync(join(root, "profiles/demo"), folder, { recursive: true });
  return { folder, end: () => rmSync(folder, { recursive: true, force: true }) };
}

/** Writes the page of a case in a folder; its file. */
export function makePage(folder, name = "page.html", words = []) {
  execFileSync(program, ["page", join(folder, "case.json"), "-o", join(folder, name), "--force", ...words]);
  return join(folder, name);
}

export function changeCase(folder, change) {
  const file = join(folder, "case.json");
  const about = JSON.parse(readFileSync(file, "utf8"));
  change(about);
  writeFileSync(file, JSON.stringify(about));
}

/**
 * One snap of one man, at a level where quarterbacks hardly have anything in common: points are so far from linear
 * that every draw is solved: a question takes a hundred times the usual.
 */
export function stranger(folder) {
  const chart = join(folder, "new-starter.csv");
  writeFileSync(chart, readFileSync(chart, "utf8").split("\n").slice(0, 2).join("\n") + "\n");
  changeCase(folder, (about) => {
    about.quarterbacks.splice(1);
    about.schemes.splice(1);
    delete about.tries;
    about.options = { draws: fewestDraws, assumed: 10 };
  });
}

/** What a page holds: the case as the engine reads it, and the engine's files. */
export function heldBy(file) {
  const html = readFileSync(file, "utf8");
  const data = (id) => new RegExp(`<script type="[^"]*" id="${id}">([^<]*)</script>`).exec(html)[1];
  const pageCase = gunzipSync(Buffer.from(data("page-case"), "base64")).toString();
  return { pageCase, worker: JSON.parse(data("worker")), engine: Buffer.from(data("engine"), "base64") };
}

/** The engine of a page under node: {show, ask}, requests and answers as objects. */
export async function engineOf(file, following = false) {
  const { pageCase, worker, engine } = heldBy(file);
  const glue = worker.slice(0, worker.indexOf("// @ts-nocheck"));
  const load = new Function("require", "process", "__filename", "__dirname", glue + "; return callfitEngine;");
  const module = await load(createRequire(import.meta.url), process, file, dirname(file))({
    wasmBinary: gunzipSync(engine),
  });
  const call = (name, ...words) =>
    JSON.parse(module.ccall(name, "string", words.map((one) => (typeof one === "number" ? "number" : "string")), words));
  const opened = call("callfit_open", pageCase, following ? 1 : 0);
  if (opened.format !== "callfit-opened/1") throw new Error(JSON.stringify(opened));
  return {
    show: (request) => call("callfit_show", JSON.stringify(request)),
    ask: (request) => call("callfit_ask", JSON.stringify(request)),
  };
}

/** What the program's own build says to requests of a page's `show`. */
export function shownByProgram(file, requests) {
  const own = file + ".case";
  writeFileSync(own, heldBy(file).pageCase);
  const input = requests.map((request) => JSON.stringify(request) + "\n").join("");
  const said = execFileSync(shownProgram, [own], { input, maxBuffer: 1 << 28 }).toString();
  return said.trim().split("\n").map((line) => JSON.parse(line));
}

/** Processor seconds that the program takes for each of several questions, each to a case just opened, on one core. */
export function timesOfProgram(file, requests) {
  const own = file + ".case";
  writeFileSync(own, heldBy(file).pageCase);
  const input = requests.map((request) => JSON.stringify(request) + "\n").join("");
  return execFileSync(shownProgram, [own, "times"], { input }).toString().trim().split("\n").map(Number);
}

/**
 * What the engine inside an open page says to [door, request], door being "ask" or "show", in a worker of its
 * own; runs in the page.
 */
async function askEngine(requests) {
  const text = (id) => document.getElementById(id).textContent;
  const unpacked = (id) => {
    const bytes = Uint8Array.from(atob(text(id)), (letter) => letter.charCodeAt(0));
    return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip")));
  };
  const module = await WebAssembly.compile(await unpacked("engine").arrayBuffer());
  const pageCase = await unpacked("page-case").text();
  const worker = new Worker(URL.createObjectURL(new Blob([JSON.parse(text("worker"))], { type: "text/javascript" })));
  const answers = [];
  await new Promise((done, failed) => {
    worker.onmessage = ({ data }) => {
      if (data.fault) return failed(new Error(data.fault));
      if (data.number > 0) answers.push(data.text);
      if (data.number === requests.length) done();
    };
    worker.onerror = (event) => failed(new Error(event.message));
    worker.postMessage({ kind: "open", number: 0, module, pageCase, following: false });
    requests.forEach(([kind, request], place) =>
      worker.postMessage({ kind, number: place + 1, request: JSON.stringify(request) }),
    );
  });
  worker.terminate();
  return answers.map((answer) => JSON.parse(answer));
}

/** In a page of Chromium. */
export const askInPage = (page, requests) => page.evaluate(askEngine, requests);

/** The same as text for other browsers: takes and gives JSON. */
export const askEngineText = `async (json) => JSON.stringify(await (${askEngine})(JSON.parse(json)))`;
