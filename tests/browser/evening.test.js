// An evening in a real browser: from an empty folder over a tape that tells its own time to a chart, a verdict,
// the picture, a cut list and a reel.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";

import { openBrowser, ready } from "./browser.js";
import { openCharting, press, rowsOf, text, Typist, withTape } from "./charting.js";
import { openDesk, program } from "./desk.js";
import { hasFfmpeg, makeTape, secondIn, seek, shownSecond } from "./tape.js";

const demo = join(resolve(dirname(fileURLToPath(import.meta.url)), "../.."), "profiles/demo/new-starter.csv");
const skip = hasFfmpeg() ? false : "ffmpeg is not installed, which makes the tape and cuts the reel";
const tapeRate = 10; // frames a second
const rows = rowsOf(demo).slice(0, 24);
const [begins, apart, lasts] = [3, 4, 2.5]; // seconds: the first snap, from one to the next, from snap to whistle

const began = performance.now();
const minutes = () => ((performance.now() - began) / 60_000).toFixed(2);

/** @type {Awaited<ReturnType<typeof openDesk>>} */
let desk;
let browser, page, said, chart;
before(async () => {
  if (skip) return;
  desk = await openDesk((folder) => makeTape(join(folder, "game.mp4"), { seconds: 120, rate: tapeRate }), { words: withTape });
  chart = join(desk.folder, "game.csv");
  browser = await openBrowser();
  ({ page, said } = await openCharting(browser, desk));
  await page.waitForFunction(() => document.querySelector("#film").readyState > 1);
});
after(async () => {
  await browser?.close();
  await desk?.end();
});

test("a game is charted from mark to whistle, and the tape says something", { skip }, async () => {
  assert.match(await text(page, "#charting-notice"), /data about minors/);
  const typist = new Typist(page);
  const columns = Object.keys(rows[0]).filter((one) => one !== "note");
  for (const [at, row] of rows.entries()) {
    await seek(page, begins + apart * at);
    await page.evaluate(() => document.querySelector("#film").play());
    await typist.chart(row, columns);
    await page.evaluate(() => document.querySelector("#film").pause());
    await seek(page, begins + apart * at + lasts);
    await press(page, "z");
    // Nothing is written that was not to be seen before.
    if (at > 0) assert.deepEqual(await outOfSight(page), []);
    await page.evaluate(() => document.querySelector("#film").play()); // the next key finds it on its way
  }
  await page.evaluate(() => document.querySelector("#film").pause());
  await press(page, "Shift+Enter");
  const charted = rowsOf(chart);
  assert.equal(charted.length, rows.length);
  charted.forEach((row, at) => {
    assert.equal(row.family, rows[at].family);
    assert.equal(row.clip, "game.mp4");
    const start = Number(row.start);
    assert.ok(start >= begins + apart * at && start < begins + apart * at + 2, `row ${at + 1} begins at ${row.start}`);
    assert.equal(Number(row.end), begins + apart * at + lasts);
  });
  await page.waitForFunction(() => document.querySelector("#so-far-part").getAttribute("aria-busy") === "false");
  assert.match(await text(page, "#so-far-verdict"), /\w+ \w+/);
  assert.match(await text(page, "#so-far-next"), /chart .* next/);

  // Back to a row: the film goes to where its snap is, and shows that second.
  const third = page.evaluate(() => new Promise((done) => document.querySelector("#film").addEventListener("seeked", done, { once: true })));
  await press(page, "Home", "3", "Enter");
  await third;
  assert.equal(await shownSecond(page), Math.floor(Number(charted[2].start)));
  await press(page, "End");
});

/** Cells of the open row that hold something and do not lie on the screen. */
function outOfSight(page) {
  return page.evaluate(() =>
    [...document.querySelectorAll("#cells > div:not(.is-blank)")]
      .filter((cell) => {
        const { top, bottom, height } = cell.getBoundingClientRect();
        return height === 0 || top < 0 || bottom > innerHeight;
      })
      .map((cell) => cell.textContent),
  );
}

test("the verdict and the picture: its snaps play in turn, it is published", { skip }, async () => {
  await page.click("#to-picture");
  await ready(page);
  assert.ok((await text(page, "#verdict")).length > 10);
  await page.click("#why");
  await page.waitForSelector("#snaps-rows button");
  await page.click("text=Play them in turn");
  await page.waitForFunction(() => !document.querySelector("#snaps-video").paused);
  assert.ok((await text(page, "#snaps-playing")).length > 10);
  const first = await page.evaluate(() => document.querySelector("#snaps-video").currentTime);
  assert.ok(rowsOf(chart).some((row) => Math.abs(Number(row.start) - first) < 5), `plays at ${first}`);
  await page.click("#snaps-next");
  await page.fill("#name", "The evening's picture");
  await page.click("#publish");
  await page.waitForFunction(() => document.querySelector("#kept-status").textContent.includes("Written"));
  for (const ending of ["svg", "png", "txt"]) assert.ok(existsSync(join(desk.folder, "the-evening-s-picture." + ending)), ending);
  console.log(`minutes from an empty folder to the published picture, ${rows.length} snaps: ${minutes()}`);
  assert.deepEqual(said, []);
});

test("the cut list and the reel: each cut shows the second that it says", { skip }, async () => {
  const files = ["reel.csv", "reel.edl", "reel.vtt", "reel.mp4"];
  const cut = spawnSync(
    program,
    ["answer", "game.csv", "--scheme", "balanced", "--draws", "500", "--snaps", "place", "--reel", "0.5", ...files.flatMap((file) => ["--cut", file])],
    { cwd: desk.folder, encoding: "utf8" },
  );
  assert.equal(cut.status, 0, cut.stderr);
  assert.match(cut.stdout.replaceAll(/\s+/g, " "), /chosen by chance.*data about minors/);
  assert.match(readFileSync(join(desk.folder, "reel.vtt"), "utf8"), /data about minors/);
  const cuts = rowsOf(join(desk.folder, "reel.csv"));
  assert.ok(cuts.length > 3 && cuts.length < rows.length, `${cuts.length} cuts in half a minute`);
  const charted = rowsOf(chart);
  // A cut holds the tape's frames from its start to before its end, and the reel is of the tape's rate.
  const frameAt = (/** @type {string} */ seconds) => Math.ceil(Number(seconds) * tapeRate - 1e-6);
  const secondOf = (/** @type {number} */ frame) => Math.floor(frame / tapeRate);
  const shownAt = (/** @type {number} */ frame) => secondIn(join(desk.folder, "reel.mp4"), Math.max(0, (frame - 0.5) / tapeRate));
  let at = 0; // frames of the reel
  for (const { start, end } of cuts) {
    assert.ok(charted.some((row) => Number(row.start) === Number(start) && Number(row.end) === Number(end)), `${start} was charted`);
    const [first, past] = [frameAt(start), frameAt(end)];
    assert.equal(shownAt(at), secondOf(first), `the cut from ${start}`);
    at += past - first;
    assert.equal(shownAt(at - 1), secondOf(past - 1), `the cut to ${end}`);
  }
  assert.ok(at <= 30 * tapeRate, `${at} frames`);
  console.log(`minutes from an empty folder to a reel of ${cuts.length} cuts: ${minutes()}`);
});
