// Debian's Chromium, headless.

import { chromium } from "playwright-core";

export const patience = 120_000;

export function openBrowser() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu"],
  });
}

/** A page that must say nothing on its console and load nothing from elsewhere. */
export async function openPage(browser, address, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  const said = [];
  page.setDefaultTimeout(patience);
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) said.push(message.text());
  });
  page.on("pageerror", (error) => said.push(String(error)));
  page.on("request", (request) => {
    if (new URL(request.url()).origin !== new URL(address).origin && !request.url().startsWith("data:"))
      said.push("asked elsewhere: " + request.url());
  });
  await page.goto(address);
  return { page, said, context };
}

/** The picture, and what is worth trying, are there. */
export async function ready(page) {
  await page.waitForSelector("#picture svg");
  await page.waitForSelector("#trying button");
}
