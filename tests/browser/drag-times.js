// How the picture follows a hand: node drag-times.js [SECONDS]. From the input event to the paint, the
// age of the numbers in a painted frame, and how long the interval takes to settle.

import { openBrowser, openPage, ready } from "./browser.js";
import { openDesk } from "./desk.js";

const seconds = Number(process.argv[2] ?? 4);
const desk = await openDesk();
const browser = await openBrowser();
const { page } = await openPage(browser, desk.address);
await ready(page);
await page.waitForTimeout(3000);
await page.evaluate(() => {
  window.frames_ = [];
  window.settled_ = [];
  document.addEventListener("desk-frame", (event) => window.frames_.push(event.detail));
  document.addEventListener("desk-settled", (event) => window.settled_.push(event.detail));
});

const spread = (values) => {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share) => Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN);
  return `median ${at(0.5)}, 9 in 10 ${at(0.9)}, most ${at(1)} ms`;
};

for (const path of ["demand.intermediate.completion.level", "rate.intermediate.completion", "call.all.intermediate"]) {
  await page.evaluate(() => {
    window.frames_.length = 0;
    window.settled_.length = 0;
  });
  const box = await page.locator(`.handle[data-path="${path}"]`).boundingBox();
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  // A hand does not wait for the picture: a hundred reports a second, as a mouse sends them.
  const from = Date.now();
  const moves = [];
  while (Date.now() - from < 1000 * seconds) {
    const way = 60 * Math.sin((Date.now() - from) / 300);
    moves.push(page.mouse.move(x + way, y));
    await page.waitForTimeout(10);
  }
  await Promise.all(moves);
  await page.mouse.up();
  await page.waitForFunction(() => window.settled_.length > 0);
  const { frames, settled } = await page.evaluate(() => ({ frames: window.frames_, settled: window.settled_ }));
  const fresh = frames.filter((one) => one.painted - one.asked <= 100);
  console.log(path);
  console.log(`  ${frames.length} frames in ${seconds} s, ${(fresh.length / seconds).toFixed(1)} a second with numbers at most 100 ms old`);
  console.log(`  age of numbers: ${spread(frames.map((one) => one.painted - one.asked))}`);
  console.log(`  input to paint: ${spread(frames.map((one) => one.painted - one.moved))}`);
  console.log(`  settled: ${spread(settled.map((one) => one.painted - one.letGo))}`);
  await page.keyboard.press("Escape");
  await page.waitForTimeout(1500);
}
await browser.close();
await desk.end();
