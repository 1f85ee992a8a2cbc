// Pictures of every view, to be looked at: node shots.js FOLDER

import { mkdirSync } from "node:fs";
import { join } from "node:path";

import { openBrowser, openPage, ready } from "./browser.js";
import { openDesk } from "./desk.js";

const folder = process.argv[2] ?? "shots";
mkdirSync(folder, { recursive: true });
const desk = await openDesk();
const browser = await openBrowser();
for (const viewport of [{ width: 1440, height: 900 }, { width: 390, height: 844 }])
  for (const colorScheme of ["light", "dark"]) {
    const { page, said, context } = await openPage(browser, desk.address, { viewport, colorScheme });
    const shot = (name, whole = false) =>
      page.screenshot({ path: join(folder, `${name}-${viewport.width}-${colorScheme}.png`), fullPage: whole });
    await ready(page);
    await shot("first");
    await shot("whole", true);
    await page.locator("#trying button").first().click();
    await page.waitForSelector("#turned:not([hidden])");
    await shot("turned", true);
    await page.locator("#paragraph .term").first().click();
    await shot("meaning");
    await page.keyboard.press("Escape");
    for (const part of ["#tries-part", "#all-part", "#said-part"]) await page.locator(part + " > summary").click();
    await page.waitForSelector("#tries table");
    await shot("open", true);
    await page.locator("#why").click();
    await page.waitForSelector("#snaps table");
    await shot("snaps");
    await page.locator("#snaps details > summary").click();
    await shot("snaps-open", true);
    if (said.length > 0) console.log(viewport.width, colorScheme, said);
    await context.close();
  }
await browser.close();
await desk.end();
