// Types the demo's charts by keys in a real browser, holds what came of it against them, and says what a
// snap took: node tests/browser/charting-keys.js [rows of each chart]

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

import { openBrowser, openPage } from "./browser.js";
import { rowsOf, needed, sheetKeys, Typist } from "./charting.js";
import { openDesk } from "./desk.js";

const root = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const charts = ["new-starter.csv", "last-starter.csv", "new-starter-C4-second-chart.csv"];

/** @returns {Promise<Typist>} */
export async function typed(browser, rows, columns, prepare = () => {}) {
  let file = "";
  const desk = await openDesk(
    (folder) => {
      file = join(folder, "typed.csv");
      prepare(folder);
    },
    { words: (folder) => ["--chart", join(folder, "typed.csv"), "--scheme", "balanced"] },
  );
  try {
    const { page, said } = await openPage(browser, desk.address);
    await page.waitForSelector("#charting-room:not([hidden]) #rows table");
    const typist = new Typist(page);
    for (const row of rows) await typist.chart(row, columns);
    await page.keyboard.press("Shift+Enter"); // finishes the last one, as the next mark would
    await page.waitForFunction((count) => document.querySelector("#rows-head").textContent.startsWith(count + " row"), rows.length);
    assert.deepEqual(said, []);
    same(rowsOf(file), rows, columns);
    return typist;
  } finally {
    await desk.end();
  }
}

function same(typed, rows, columns) {
  assert.equal(typed.length, rows.length);
  rows.forEach((row, at) => {
    for (const column of columns)
      if (column !== "note") assert.equal(typed[at][column], row[column], `row ${at + 1}, ${column}`);
    for (const [column, value] of Object.entries(typed[at]))
      if (!columns.includes(column)) assert.equal(value, "", `row ${at + 1}: ${column} was filled in`);
  });
}

const noOptional = (folder) => writeFileSync(join(folder, "keys.json"), JSON.stringify({ format: "callfit-keys/1", order: [] }));

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const browser = await openBrowser();
  const most = Number(process.argv[2] ?? Infinity);
  for (const name of charts) {
    const rows = rowsOf(join(root, "profiles/demo", name)).slice(0, most);
    const all = Object.keys(rows[0]).filter((one) => one !== "note");
    for (const columns of [all, needed]) {
      const typist = await typed(browser, rows, columns, columns === needed ? noOptional : undefined);
      const each = (keys) => (keys / rows.length).toFixed(2);
      console.log(
        `${name}, ${rows.length} snaps, ${columns === needed ? "needed" : "all"} columns: ${each(typist.keys)} keys a snap;`,
        `in a spreadsheet ${each(sheetKeys(rows, columns))}, with completion ${each(sheetKeys(rows, columns, true))}`,
      );
      console.log("  " + Object.entries(typist.keysOf).map(([what, keys]) => `${what} ${each(keys)}`).join(", "));
    }
  }
  await browser.close();
}
