// The engine of a page against the program: node agree.js [COUNT] [node|chromium|firefox]. Each request is asked of
// `callfit desk` and of the engine, over men of all kinds; numbers may differ by 1e-9, nothing else may.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { openBrowser, openPage } from "./browser.js";
import { openDesk } from "./desk.js";
import { openFirefox } from "./firefox.js";
import { askEngineText, askInPage, changeCase, demoFolder, engineOf, makePage, program } from "./page.js";
import { apart, kinds, requests } from "./requests.js";

const count = Number(process.argv[2] ?? 208);
const where = process.argv[3] ?? "node";
const draws = 500;
const demo = demoFolder();

// Besides the demo's two: five snaps alone, handoffs and runs alone, deep throws alone, one game.
const [head, ...rows] = readFileSync(join(demo.folder, "new-starter.csv"), "utf8").trim().split("\n");
const family = head.split(",").indexOf("family");
const of = (families) => rows.filter((row) => families.includes(row.split(",")[family]));
const charts = {
  "five snaps": rows.slice(0, 5),
  runner: of(["handoff", "qb_draw", "qb_power", "zone_read_keep"]),
  "deep thrower": of(["deep_outside", "deep_middle"]),
  "one game": rows.slice(0, 60),
};
for (const [name, own] of Object.entries(charts))
  writeFileSync(join(demo.folder, name + ".csv"), [head, ...own].join("\n") + "\n");
changeCase(demo.folder, (about) => {
  for (const name of Object.keys(charts)) about.quarterbacks.push({ name, charts: [name + ".csv"] });
  about.options = { draws };
});

// What both read is the case without its rows.
const whole = join(demo.folder, "whole");
execFileSync(program, ["answer", join(demo.folder, "case.json"), "--part", "fit", "-o", whole]);
const page = makePage(demo.folder);
const desk = await openDesk(undefined, { file: join(whole, "case.json") });
const asked = requests(count, 6, 2);

const native = [];
for (const request of asked) native.push(await desk.ask("/ask", request));
let own;
if (where === "node") {
  const engine = await engineOf(page);
  own = asked.map((request) => engine.ask(request));
} else if (where === "firefox") {
  const firefox = await openFirefox(pathToFileURL(page).href);
  own = JSON.parse(await firefox.call(askEngineText, JSON.stringify(asked)));
  await firefox.close();
} else {
  const browser = await openBrowser();
  const open = await openPage(browser, pathToFileURL(page).href);
  own = await askInPage(open.page, asked);
  await browser.close();
}

const told = Object.fromEntries(kinds.map((kind) => [kind, { asked: 0, refused: 0, apart: 0 }]));
let allExact = 0;
asked.forEach((request, place) => {
  const { format } = native[place];
  const far = apart(native[place], own[place]);
  const row = told[request.kind];
  row.asked += 1;
  row.refused += format === "callfit-error/1" ? 1 : 0;
  row.apart = Math.max(row.apart, far);
  if (JSON.stringify(native[place]).includes('"all_exact":true')) allExact += 1;
  if (far > 1e-9) console.log("differs by", far, JSON.stringify(request));
});
console.table(told);
console.log(`${allExact} answers solved every draw exactly`);
await desk.end();
demo.end();
// A season game by game needs rows, which neither case has.
for (const [kind, row] of Object.entries(told)) assert.ok(kind === "trend" || row.refused < row.asked, kind);
assert.ok(Object.values(told).every((row) => row.apart <= 1e-9));
