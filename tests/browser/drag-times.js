// How the picture follows a hand, in eight drags of a handle: node drag-times.js [SECONDS in all].
// From the input event to the paint, the age of the numbers in a painted frame, and how long the
// interval takes to settle.

import { openBrowser, openPage, ready } from "./browser.js";
import { openDesk } from "./desk.js";

const seconds = Number(process.argv[2] ?? 4);
const drags = 8;
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

// A hand does not wait for the picture: a hundred reports a second, as a mouse sends them. It lets go
// somewhere else each time; what it did is taken back.
async function drag(path, lasts, reach) {
  const box = await page.locator(`.handle[data-path="${path}"]`).boundingBox();
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  const settledBefore = await page.evaluate(() => window.settled_.length);
  await page.mouse.move(x, y);
  await page.mouse.down();
  const from = Date.now();
  const moves = [];
  while (Date.now() - from < lasts) {
    const way = reach * Math.sin((Date.now() - from) / 300);
    moves.push(page.mouse.move(x + way, y));
    await page.waitForTimeout(10);
  }
  await Promise.all(moves);
  const held = Date.now() - from;
  await page.mouse.up();
  await page.waitForFunction((before) => window.settled_.length > before, settledBefore);
  await page.keyboard.press("Escape");
  await page.waitForTimeout(1000);
  return held / 1000;
}

// How far the first drag of a handle goes, in pixels: some ten hundredths of what is asked or called, and
// of what he does, which has a smaller unit. Each of the others goes to another value.
const reaches = {
  "demand.intermediate.completion.level": 60,
  "rate.intermediate.completion": 180,
  "call.all.intermediate": 60,
};

for (const [path, reach] of Object.entries(reaches)) {
  await page.evaluate(() => {
    window.frames_.length = 0;
    window.settled_.length = 0;
  });
  let held = 0;
  for (let i = 0; i < drags; ++i) held += await drag(path, (1000 * seconds) / drags, reach * (1 - i / 10));
  const { frames, settled } = await page.evaluate(() => ({ frames: window.frames_, settled: window.settled_ }));
  const fresh = frames.filter((one) => one.painted - one.asked <= 100);
  console.log(path);
  console.log(`  ${frames.length} frames in ${held.toFixed(1)} s, ${(fresh.length / held).toFixed(1)} a second with numbers at most 100 ms old`);
  console.log(`  age of numbers: ${spread(frames.map((one) => one.painted - one.asked))}`);
  console.log(`  input to paint: ${spread(frames.map((one) => one.painted - one.moved))}`);
  console.log(`  settled, ${settled.length} times: ${spread(settled.map((one) => one.painted - one.letGo))}`);
}
await browser.close();
await desk.end();
