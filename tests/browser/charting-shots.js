// Draws the charting room as it stands in the middle of a game, and two charts being settled: node tests/browser/charting-shots.js FOLDER

import { join, dirname, resolve } from "node:path";
import { cpSync, mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { openBrowser, openPage } from "./browser.js";
import { openDesk } from "./desk.js";
import { makeTape, seek } from "./tape.js";
import { putTwoCharts, words } from "./two-charts.js";

const root = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const to = process.argv[2] ?? "shots";
mkdirSync(to, { recursive: true });
const desk = await openDesk(
  (folder) => {
    cpSync(join(root, "profiles/demo/new-starter.csv"), join(folder, "game.csv"));
    makeTape(join(folder, "game.mp4"), { seconds: 120 });
  },
  { words: (folder) => ["--chart", join(folder, "game.csv"), "--tape", join(folder, "game.mp4"), "--scheme", "balanced"] },
);
const browser = await openBrowser();
for (const colorScheme of ["light", "dark"]) {
  const { page, context } = await openPage(browser, desk.address, { colorScheme });
  await page.waitForSelector("#rows table");
  await page.waitForFunction(() => document.querySelector("#film").readyState > 1 && document.querySelector("#so-far-verdict").textContent);
  if (await page.isVisible("#add-columns")) await page.click("#add-columns");
  const shot = (name) => page.screenshot({ path: join(to, `charting-${name}-${colorScheme}.png`) });
  await seek(page, 42.5);
  await shot("empty");
  for (const key of ["Enter", "q"]) await page.keyboard.press(key);
  await page.waitForTimeout(300);
  await shot("result");
  for (const key of ["c", "1", "2", "o", "q", "7", "w"]) await page.keyboard.press(key);
  await page.waitForTimeout(300);
  await shot("open");
  for (const key of ["b", "1", "0", "0", "."]) await page.keyboard.press(key);
  await page.waitForTimeout(300);
  await shot("refused");
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  await shot("large");
  await page.evaluate(() => (document.documentElement.style.fontSize = ""));
  await page.click("#map-part summary");
  await page.emulateMedia({ media: "print", colorScheme });
  await page.screenshot({ path: join(to, `charting-print-${colorScheme}.png`), fullPage: true });
  await page.emulateMedia({ media: "screen", colorScheme });
  await page.click("#row-head");
  await page.keyboard.press("Delete");
  await page.waitForTimeout(300);
  await context.close();
}
await desk.end();

for (const colorScheme of ["light", "dark"]) {
  const two = await openDesk(putTwoCharts, { words });
  const { page, context } = await openPage(browser, two.address, { colorScheme });
  const shot = (name) => page.screenshot({ path: join(to, `settling-${name}-${colorScheme}.png`) });
  await page.waitForSelector("#rows table");
  await page.waitForFunction(() => document.querySelector("#film").readyState > 1);
  await shot("blind");
  await page.click("#against-button");
  await page.waitForSelector("#settling-rows table");
  await page.waitForTimeout(500);
  await shot("asked");
  await page.screenshot({ path: join(to, `settling-whole-${colorScheme}.png`), fullPage: true });
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  await shot("large");
  await page.evaluate(() => (document.documentElement.style.fontSize = ""));
  for (let keys = 0; keys < 80; ++keys) await page.keyboard.press("1");
  await page.waitForFunction(() => document.querySelector("#settling-head").textContent === "All of it is settled");
  await page.waitForTimeout(500);
  await shot("settled");
  await page.click("#settling-back");
  await page.waitForTimeout(300);
  await shot("back");
  await context.close();
  await two.end();
}
await browser.close();
