// Pictures of the demo's page, and how long its first answers take: node page-shots.js FOLDER

import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { openBrowser } from "./browser.js";
import { demoFolder, makePage } from "./page.js";

const folder = process.argv[2] ?? "shots";
mkdirSync(folder, { recursive: true });
const demo = demoFolder();
const address = pathToFileURL(makePage(demo.folder)).href;
const browser = await openBrowser();
for (const viewport of [{ width: 360, height: 800 }, { width: 1440, height: 900 }])
  for (const colorScheme of ["light", "dark"]) {
    const context = await browser.newContext({ viewport, colorScheme });
    const page = await context.newPage();
    page.setDefaultTimeout(120_000);
    const shot = (name, whole = false) =>
      page.screenshot({ path: join(folder, `page-${name}-${viewport.width}-${colorScheme}.png`), fullPage: whole });
    const from = Date.now();
    await page.goto(address);
    const loaded = Date.now();
    await page.waitForSelector("#turning:not([hidden])");
    const ready = Date.now();
    await page.evaluate(() => new Promise((done) => document.addEventListener("warm", done, { once: true })).then(() => true));
    const warm = Date.now();
    await shot("first");
    const turned = await page.evaluate(async () => {
      const from = performance.now();
      const input = document.querySelector("#handle-5");
      const output = input.closest(".handle").querySelector("output");
      const began = output.textContent;
      const settled = new Promise((done) => document.addEventListener("settled", done, { once: true }));
      input.value = input.max;
      input.dispatchEvent(new Event("input", { bubbles: true }));
      while (output.textContent === began) await new Promise(requestAnimationFrame);
      const quick = performance.now() - from;
      await settled;
      return { quick, settled: performance.now() - from };
    });
    const next = await page.evaluate(async () => {
      const input = document.querySelector("#handle-5");
      const output = input.closest(".handle").querySelector("output");
      const times = [];
      for (let i = 1; i <= 12; ++i) {
        const began = output.textContent;
        const from = performance.now();
        input.value = String(Number(input.max) - i);
        input.dispatchEvent(new Event("input", { bubbles: true }));
        while (output.textContent === began) await new Promise(requestAnimationFrame);
        times.push(performance.now() - from);
      }
      return times.sort((a, b) => a - b)[6];
    });
    await page.waitForFunction(() => document.querySelector("#answer").getAttribute("aria-busy") === "false");
    await page.locator("#turning").scrollIntoViewIfNeeded();
    await page.evaluate(() => document.querySelector("#turning").scrollIntoView());
    await shot("turned");
    await shot("whole", true);
    console.log(
      viewport.width, colorScheme, "loaded", loaded - from, "ready", ready - from, "warm", warm - from, "first turn: quick",
      Math.round(turned.quick), "settled", Math.round(turned.settled), "further turns", Math.round(next), "ms",
    );
    await context.close();
  }
await browser.close();
demo.end();
