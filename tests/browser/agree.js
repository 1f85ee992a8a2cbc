// The engine of a page against the program: node agree.js [COUNT] [node|chromium|firefox|webkit]. Each request is
// asked of `callfit desk` and of the engine, over men of all kinds; numbers may differ by 1e-9, nothing else may.
// Then what a page shows of its handles: all of it is text, and must be the same. In node, where scripts/test --all
// asks, nothing of npm is needed.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { openDesk } from "./desk.js";
import { askEngineText, askInPage, changeCase, demoFolder, engineOf, fewestDraws, heldBy, makePage, program, shownByProgram, stranger } from "./page.js";
import { apart, kinds, puts, requests } from "./requests.js";

const count = Number(process.argv[2] ?? 208);
const where = process.argv[3] ?? "node";

/** Besides the demo's two men: five snaps alone, handoffs and runs alone, deep throws alone, one game. */
function menOfAllKinds(folder) {
  const [head, ...rows] = readFileSync(join(folder, "new-starter.csv"), "utf8").trim().split("\n");
  const family = head.split(",").indexOf("family");
  const of = (families) => rows.filter((row) => families.includes(row.split(",")[family]));
  const charts = {
    "five snaps": rows.slice(0, 5),
    runner: of(["handoff", "qb_draw", "qb_power", "zone_read_keep"]),
    "deep thrower": of(["deep_outside", "deep_middle"]),
    "one game": rows.slice(0, 60),
  };
  for (const [name, own] of Object.entries(charts))
    writeFileSync(join(folder, name + ".csv"), [head, ...own].join("\n") + "\n");
  changeCase(folder, (about) => {
    for (const name of Object.keys(charts)) about.quarterbacks.push({ name, charts: [name + ".csv"] });
    about.options = { draws: fewestDraws };
  });
}

/** What the program says and what the engine says to the same, in one case. */
async function saidOf(prepare, asked, turns) {
  const demo = demoFolder();
  prepare(demo.folder);
  // What both read is the case without its rows.
  const whole = join(demo.folder, "whole");
  execFileSync(program, ["answer", join(demo.folder, "case.json"), "--part", "fit", "-o", whole]);
  const page = makePage(demo.folder);
  const desk = await openDesk(undefined, { file: join(whole, "case.json") });
  const native = [];
  for (const request of asked) native.push(await desk.ask("/ask", request));
  await desk.end();
  const shows = puts(turns, JSON.parse(heldBy(page).pageCase).handles.map((handle) => handle.count));
  if (turns > 0) native.push(...shownByProgram(page, shows));

  const all = [...asked.map((request) => ["ask", request]), ...shows.map((request) => ["show", request])];
  const own = await saidByEngine(page, all);
  demo.end();
  return all.map(([, request], place) => ({ request, native: native[place], own: own[place] }));
}

async function saidByEngine(page, all) {
  const address = pathToFileURL(page).href;
  if (where === "node") {
    const engine = await engineOf(page);
    return all.map(([door, request]) => engine[door](request));
  }
  if (where === "chromium") {
    const { openBrowser, openPage } = await import("./browser.js");
    const browser = await openBrowser();
    const open = await openPage(browser, address);
    const own = await askInPage(open.page, all);
    await browser.close();
    return own;
  }
  const { openFirefox } = await import("./firefox.js");
  const { openWebKit } = await import("./webkit.js");
  const browser = await { firefox: openFirefox, webkit: openWebKit }[where](address);
  const own = JSON.parse(await browser.call(askEngineText, JSON.stringify(all)));
  await browser.close();
  return own;
}

const said = [
  ...(await saidOf(menOfAllKinds, requests(count - 1, 6, 2), Math.ceil(count / 8))),
  ...(await saidOf(stranger, [{ kind: "drives" }], 0)),
];

const told = Object.fromEntries([...kinds, "show"].map((kind) => [kind, { asked: 0, refused: 0, apart: 0 }]));
let allExact = 0;
for (const { request, native, own } of said) {
  const far = apart(native, own);
  const row = told[request.kind ?? "show"];
  row.asked += 1;
  row.refused += native.format === "callfit-error/1" ? 1 : 0;
  row.apart = Math.max(row.apart, far);
  if (JSON.stringify(native).includes('"all_exact":true')) allExact += 1;
  if (far > 1e-9) console.log("differs by", far, JSON.stringify(request));
}
console.table(told);
console.log(`${allExact} answers solved every draw exactly`);
// A season game by game needs rows, which neither case has.
for (const [kind, row] of Object.entries(told))
  assert.ok(kind === "trend" || row.refused < row.asked || row.asked === 0, kind);
assert.ok(count < 200 || Object.values(told).every((row) => row.asked >= 10));
assert.ok(Object.values(told).every((row) => row.apart <= 1e-9));
assert.ok(allExact > 0, "no answer came by the fall back");
