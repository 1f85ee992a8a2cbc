// Charting beside the tape in a real browser: a tape that tells its own time, two charts of one game, and what is
// on the disk whatever ends the desk or the browser. The evening as a whole is in evening.test.js.

import assert from "node:assert/strict";
import { cpSync, existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";

import { openBrowser, openPage } from "./browser.js";
import { openCharting, press, rowsOf, text, withTape, words } from "./charting.js";
import { openDesk } from "./desk.js";
import { hasFfmpeg, makeTape, seek, shownSecond } from "./tape.js";
import { film, fromPaper, putTwoCharts, words as twoCharts } from "./two-charts.js";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const demo = join(resolve(dirname(fileURLToPath(import.meta.url)), "../.."), "profiles/demo/new-starter.csv");
const skip = hasFfmpeg() ? false : "ffmpeg is not installed, which makes the tape";

let browser;
before(async () => (browser = await openBrowser()));
after(() => browser?.close());

const opened = (desk, options) => openCharting(browser, desk, options);

test("a tape of two hours is there at once, wherever it is looked at", { skip }, async () => {
  const desk = await openDesk((folder) => makeTape(join(folder, "game.mp4"), { seconds: 7200, rate: 2 }), { words: withTape });
  const { page, said, context } = await opened(desk);
  await page.waitForFunction(() => document.querySelector("#film").readyState > 0);
  const took = [];
  for (const at of [7195.3, 10.2, 3600.6, 5400.1, 61.7, 7000.4, 1234.6]) {
    took.push(Math.round(await seek(page, at)));
    assert.equal(await shownSecond(page), Math.floor(at));
  }
  console.log("two hours, milliseconds of each seek:", took.join(", "));
  await press(page, "Enter");
  assert.match(await text(page, "#cells"), /1234\.6/);
  await page.evaluate(() => (document.querySelector("#film").currentTime = 100));
  await press(page, "ArrowLeft");
  assert.equal(await page.evaluate(() => document.querySelector("#film").currentTime), 97);
  await press(page, "j"); // the game is asked for: letters are text
  assert.equal(await text(page, "#asked .typing"), "j");
  assert.equal(await page.evaluate(() => document.querySelector("#film").currentTime), 97);
  assert.deepEqual(said, []);
  await context.close();
  await desk.end();
});

test("keys of the film: play, slower, frames, and the snap again and again", { skip }, async () => {
  const desk = await openDesk(
    (folder) => {
      makeTape(join(folder, "game.mp4"), { seconds: 60 });
      const [head, ...rows] = readFileSync(demo, "utf8").split("\n");
      writeFileSync(
        join(folder, "game.csv"),
        [head + ",clip,start,end", ...rows.slice(0, 3).map((row, at) => `${row},game.mp4,${10 * at + 5},${10 * at + 6}`)].join("\n") + "\n",
      );
    },
    { words: withTape },
  );
  const { page, context } = await opened(desk);
  const film = (what) => page.evaluate((name) => document.querySelector("#film")[name], what);
  await page.waitForFunction(() => document.querySelector("#film").readyState > 1);
  await press(page, "Space");
  await page.waitForFunction(() => !document.querySelector("#film").paused);
  await press(page, "ArrowDown");
  assert.equal(await film("playbackRate"), 0.75);
  await press(page, "l", "l");
  assert.equal(await film("playbackRate"), 1.5);
  await press(page, "k");
  assert.equal(await film("paused"), true);
  const stood = await film("currentTime");
  await press(page, "Shift+ArrowRight");
  const step = (await film("currentTime")) - stood;
  assert.ok(step > 0 && step < 0.11, `a frame is ${step}`);
  await press(page, "Home", "2", "Enter", "h");
  await page.waitForFunction(() => {
    const now = document.querySelector("#film").currentTime;
    const seen = (window.seen ??= []);
    seen.push(now);
    return seen.some((one, at) => at > 0 && one < seen[at - 1] - 0.5 && one >= 15 && one < 15.6);
  });
  await press(page, "h");
  await context.close();
  await desk.end();
});

test("a film that browsers do not play is refused at the door, one that cannot be played is told", { skip }, async () => {
  await assert.rejects(openDesk((folder) => writeFileSync(join(folder, "game.mp4"), "game,level\n"), { words: withTape }));
  const desk = await openDesk(
    (folder) => writeFileSync(join(folder, "game.mp4"), Buffer.concat([Buffer.from("\0\0\0\x18ftypisom"), Buffer.alloc(4000)])),
    { words: withTape },
  );
  const { page, context } = await openPage(browser, desk.address);
  await page.waitForFunction(() => document.querySelector("#film-told").textContent.includes("cannot play game.mp4"));
  assert.match(await text(page, "#film-told"), /ffmpeg -i/);
  await context.close();
  await desk.end();
});

test("the room is usable without sight of colour, by readers of screens and at twice the size", async () => {
  const desk = await openDesk((folder) => cpSync(demo, join(folder, "game.csv")), { words: words() });
  for (const colorScheme of ["light", "dark"]) {
    const { page, said, context } = await opened(desk, { colorScheme });
    await press(page, "Enter", "q", "c", "9", "9", "o");
    assert.match(await text(page, "#charting-fault"), /beyond the goal line/);
    await page.click("#map-part summary");
    await page.evaluate(axe);
    const found = await page.evaluate(() => globalThis.axe.run(document));
    assert.deepEqual(found.violations.map((one) => [one.id, one.nodes[0].html]), []);
    await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth + 1), "no sideways scrolling");
    await page.click("#row-head");
    await press(page, "Delete");
    assert.deepEqual(said, []);
    await context.close();
  }
  await desk.end();
});

test("ten thousand rows: a key, a row and a row looked up take well below a second", async () => {
  const [head, ...rows] = readFileSync(demo, "utf8").trimEnd().split("\n");
  const many = Array.from({ length: 10_000 }, (_, at) => {
    const season = Math.floor(at / rows.length);
    return rows[at % rows.length].replace(/^(\w+),/, `$1 of ${season + 1},`);
  });
  const desk = await openDesk((folder) => writeFileSync(join(folder, "game.csv"), [head, ...many, ""].join("\n")), { words: words() });
  const chart = join(desk.folder, "game.csv");
  const { page, said, context } = await opened(desk);
  assert.match(await text(page, "#rows-head"), /^10000 rows/);
  // Typing goes on while what the tape says so far is worked out beside it.
  const took = [];
  const timed = async (...keys) => {
    const from = performance.now();
    await press(page, ...keys);
    took.push(Math.round(performance.now() - from));
    assert.ok(took.at(-1) < 1000, `${keys.join(" ")} took ${took.at(-1)} ms`);
  };
  await press(page, "Enter", "b", "7", "5");
  for (const gain of "345678") await timed("g", gain, "Enter");
  await timed("Delete");
  await timed("Home", "5", "0", "0", "0", "Enter");
  assert.match(await text(page, "#row-head"), /^Row 5000,/);
  await timed("Delete", "Delete");
  await timed("Control+z");
  await timed("PageUp");
  console.log("ten thousand rows, milliseconds of each row and move:", took.join(", "));
  const written = readFileSync(chart, "utf8").trimEnd().split("\n");
  assert.deepEqual(written.slice(0, 10_001), [head, ...many]);
  assert.deepEqual(written.slice(10_001).map((row) => row.split(",")[9]), ["3", "4", "5", "6", "7", "8"]);
  assert.deepEqual(said, []);
  await context.close();
  await desk.end();
});

test("a second desk is told, and sees what the first one writes", async () => {
  const desk = await openDesk(undefined, { words: words() });
  const second = await openDesk(undefined, { words: () => words()(desk.folder) });
  const { page, context } = await opened(second);
  assert.match(await text(page, "#charting-look"), /open on another desk/);
  await desk.ask("/charting/keys", { keys: keysOf(["Enter", "G", "Enter", "w", "7", "5", "g", "3", "Shift+Enter"]) });
  await press(page, "Enter");
  assert.match(await text(page, "#charting-fault"), /can only be looked at/);
  assert.match(await text(page, "#rows-head"), /^1 row/);
  await context.close();
  await second.end();
  await desk.end();
});

test("a second chart: blind, then held against the first one, and settled a key each", { skip }, async () => {
  const desk = await openDesk(putTwoCharts, { words: twoCharts });
  const file = (name) => readFileSync(join(desk.folder, name), "utf8");
  const mine = file("mine.csv");
  const [before, others] = [rowsOf(join(desk.folder, "mine.csv")), rowsOf(join(desk.folder, "theirs.csv"))];
  // The demo's two charts pair row by row; a disagreement is what both charted and charted otherwise.
  const differ = before.flatMap((row, at) =>
    Object.keys(others[at])
      .filter((one) => !["note", "opponent"].includes(one) && row[one] && others[at][one] && row[one] !== others[at][one])
      .map((column) => ({ at, column })),
  );
  const open = async () => {
    const { page, said, context } = await opened(desk);
    await page.waitForFunction(() => document.querySelector("#film").readyState > 1);
    await page.click("#against-button");
    await page.waitForSelector("#figures table");
    return { page, said, context };
  };
  const pressed = async (page, ...keys) => {
    for (const key of keys) await page.keyboard.press(key);
    await page.waitForFunction(() => !document.querySelector("#settling-pad").hasAttribute("aria-busy"));
  };
  const left = async (page) => Number((await text(page, "#settling-count")).split(" ")[0]);
  const asked = (page) => page.textContent("#settling-head");

  const { page, said, context } = await open();
  assert.equal(file("mine.csv.blind"), mine);
  assert.equal(await left(page), differ.length);
  const figures = await text(page, "#figures");
  assert.match(figures, /63 snaps in both, 0 only in A, 0 only in B/);
  // The film plays the snap that is asked, and shows that second.
  const first = differ[0].at;
  await page.waitForFunction((at) => document.querySelector("#film").currentTime >= at, film.first + film.apart * first);
  await pressed(page, "k");
  const second = await shownSecond(page);
  assert.ok(second >= film.first + film.apart * first && second <= film.first + film.apart * first + film.lasts, `second ${second}`);
  assert.equal(await asked(page), `Row ${first + 1} of mine.csv, row ${first + 1} of theirs.csv`);

  await pressed(page, "1");
  assert.equal(file("mine.csv"), mine);
  assert.equal(await left(page), differ.length - 1);
  await pressed(page, "2");
  const changed = rowsOf(join(desk.folder, "mine.csv"));
  const { at, column } = differ[1];
  assert.equal(changed[at][column], others[at][column]);
  assert.deepEqual(changed.map((row, place) => (place === at ? { ...row, [column]: before[at][column] } : row)), before);
  await pressed(page, "Control+z");
  assert.equal(file("mine.csv"), mine);
  await pressed(page, "Control+y", ".", ",");
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document));
  assert.deepEqual(found.violations.map((one) => [one.id, one.nodes[0].html]), []);
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth + 1), "no sideways scrolling");
  await context.close();
  const settled = await left((await open()).page);
  assert.ok(settled < differ.length - 1);
  desk.kill();

  // After a kill all of it is there, and the figures are those from before.
  const next = await openDesk(undefined, { words: () => twoCharts(desk.folder) });
  const again = await openPage(browser, next.address);
  await again.page.waitForSelector("#charting-room:not([hidden]) #rows table");
  assert.equal(await text(again.page, "#against-button"), "Where the two differ");
  await again.page.click("#against-button");
  await again.page.waitForSelector("#figures table");
  assert.equal(await left(again.page), settled);
  assert.equal(await text(again.page, "#figures"), figures);
  for (let keys = 0; keys < settled; ++keys) await pressed(again.page, "2");
  assert.equal(await asked(again.page), "All of it is settled");
  const end = rowsOf(join(desk.folder, "mine.csv"));
  differ.slice(1).forEach((one) => assert.equal(end[one.at][one.column], others[one.at][one.column]));
  assert.equal(end[first][differ[0].column], before[first][differ[0].column]);
  await again.page.click("#settling-back");
  await press(again.page, "Home", "1", "Enter");
  assert.match(await text(again.page, "#row-head"), /^Row 1, as it is on disk/);
  assert.deepEqual([...said, ...again.said], []);
  await again.context.close();
  await next.end();
  desk.remove();
});

test("a chart that is typed blind is told nothing of the other one, in no room, though the case names it", async () => {
  const [head, ...rows] = readFileSync(demo, "utf8").trimEnd().split("\n");
  const others = {
    as_charted: rows.filter((row) => row.startsWith("C4,")),
    otherwise: rows.filter((row) => row.startsWith("C1,")).map((row) => row.replace("C1,", "C4,")).slice(0, 30),
  };
  const answers = [];
  for (const theirs of Object.values(others)) {
    const desk = await openDesk(
      (folder) => {
        cpSync(join(dirname(demo), "case.json"), join(folder, "case.json"));
        for (const name of ["last-starter.csv", "coordinator-calls.csv", "coordinator.json"])
          if (existsSync(join(dirname(demo), name))) cpSync(join(dirname(demo), name), join(folder, name));
        writeFileSync(join(folder, "new-starter.csv"), [head, ...theirs, ""].join("\n"));
      },
      { words: (folder) => [join(folder, "case.json"), "--chart", join(folder, "mine.csv"), "--against", join(folder, "new-starter.csv"), "--draws", "500"] },
    );
    const told = [await desk.ask("/rooms", {}), await desk.ask("/charting", {}), await desk.ask("/case", {})];
    for (const key of ["Enter", "C", "4", "Enter", "w", "7", "5", "q", "c", "1", "2", "Shift+Enter"])
      told.push(await desk.ask("/charting/keys", { keys: [{ key }] }));
    const look = { frame: "wide", theme: "light" };
    told.push(await desk.ask("/case", {}), await desk.ask("/view", { stand: { quarterback: 1, scheme: 1 }, ...look }));
    for (const number of ["place", "rate.quick_middle.completion"]) told.push(await desk.ask("/snaps", { stand: { quarterback: 1, scheme: 1 }, number }));
    for (const target of ["/kept", "/levers", "/tries", "/settling", "/charting/map"]) told.push(await desk.ask(target, {}));
    let so_far;
    while ((so_far = await desk.ask("/charting/so-far", {})).working) await new Promise((done) => setTimeout(done, 300));
    told.push(so_far);
    assert.equal(told.find((one) => one.verdict)?.format, "callfit-view/1");
    answers.push(told.map((one) => JSON.stringify(one)));
    await desk.end();
  }
  assert.deepEqual(answers[0], answers[1]);
});

const keysOf = (keys) => keys.map((key) => ({ key }));

// The rows that a desk has said are done; each gains another number of yards, so that a row lost shows.
const gains = [1, 2, 3, 4];
const rowKeys = (row) => ["Enter", ...(row % 4 === 0 ? ["b", "7", "5"] : []), "g", String(gains[row % 4]), "Shift+Enter"];

function checkRows(file, done, about) {
  const bytes = readFileSync(file, "utf8");
  assert.ok(bytes.endsWith("\n"), about + ": half a row");
  const rows = rowsOf(file);
  assert.ok(rows.length >= done, `${about}: ${done} rows were done, ${rows.length} are on the disk`);
  const width = bytes.split("\n")[0].split(",").length;
  for (const line of bytes.trimEnd().split("\n")) assert.equal(line.split(",").length, width, about);
  rows.forEach((row, at) => assert.equal(row.yards, String(at === 0 ? 3 : gains[at % 4]), `${about}: row ${at + 1}`));
  return rows.length;
}

test("whatever moment the desk is killed at, no row that was done is lost and none is half", async () => {
  const kills = Number(process.env.CALLFIT_KILLS ?? 20); // a hundred with all tests
  const home = await openDesk(undefined, { words: words() });
  const folder = home.folder;
  const file = join(folder, "game.csv");
  await home.ask("/charting/keys", { keys: keysOf(["Enter", "G", "Enter", "w", "7", "5", "g", "3", "Shift+Enter"]) });
  let done = 1;
  let inFlight = 0;
  home.kill();
  for (let kill = 0; kill < kills; ++kill) {
    done = checkRows(file, done, `kill ${kill}`);
    const desk = await openDesk(undefined, { words: () => words()(folder) });
    setTimeout(() => desk.kill(), 20 + 400 * Math.random());
    try {
      for (;;) {
        await desk.ask("/charting/keys", { keys: keysOf(rowKeys(done)) });
        done += 1;
      }
    } catch {
      const there = checkRows(file, done, `kill ${kill}`);
      if (there > done) inFlight += 1;
      done = there;
    }
  }
  console.log(`${kills} kills, ${done} rows, ${inFlight} of them written and not yet told`);
  assert.ok(done > kills / 2);
  const last = await openDesk(undefined, { words: () => words()(folder) });
  assert.equal((await last.ask("/charting", {})).rows, done);
  await last.end();
  assert.ok(existsSync(file) && readdirSync(folder).every((name) => name !== "game.csv.marks"));
  home.remove();
});

test("whatever moment the desk is killed at, what was settled stays settled", async () => {
  const home = await openDesk((folder) => putTwoCharts(folder, false), { words: fromPaper });
  const { folder } = home;
  await home.ask("/settling/begin", {});
  home.kill();
  const onDisk = () => ["mine.csv", "mine.csv.upheld", "mine.csv.blind"].map((name) => (existsSync(join(folder, name)) ? readFileSync(join(folder, name), "utf8") : ""));
  const { length } = rowsOf(join(folder, "mine.csv"));
  const [, , blind] = onDisk();
  const keys = ["1", "Ctrl+z", "2", "Ctrl+z", "Ctrl+y", "Ctrl+z"]; // at most one more is settled when a desk ends
  let done = onDisk();
  let [pressed, inFlight, all] = [0, 0, 0];
  const kills = Number(process.env.CALLFIT_KILLS ?? 20); // a hundred with all tests
  for (let kill = 0; kill < kills; ++kill) {
    if (kill % 10 === 9) {
      writeFileSync(join(folder, "mine.csv"), blind); // from the start again, before nothing is left
      rmSync(join(folder, "mine.csv.upheld"), { force: true });
      done = onDisk();
    }
    const desk = await openDesk(undefined, { words: () => fromPaper(folder) });
    assert.ok((await desk.ask("/settling", {})).asked, "something is left to settle");
    assert.deepEqual(onDisk(), done, `kill ${kill}: opening changes nothing`);
    setTimeout(() => desk.kill(), 5 + 150 * Math.random());
    pressed = 0;
    try {
      for (;;) {
        await desk.ask("/settling/keys", { keys: [keys[pressed % keys.length]] });
        pressed += 1;
        all += 1;
        done = onDisk();
      }
    } catch {
      const now = onDisk();
      // The key that was under way is on the disk as a whole or not at all: one of the two files is another.
      const changed = now.filter((bytes, at) => bytes !== done[at]).length;
      assert.ok(changed <= 1, `kill ${kill}: ${changed} files changed by one key`);
      assert.equal(rowsOf(join(folder, "mine.csv")).length, length);
      assert.equal(now[2], blind);
      inFlight += changed;
      done = now;
    }
  }
  console.log(`${kills} kills while two charts were settled, ${all} keys, ${inFlight} more written and not yet told`);
  home.remove();
});

test("a browser killed while it types loses no row that it showed as done", async () => {
  const desk = await openDesk(undefined, { words: words() });
  const file = join(desk.folder, "game.csv");
  await desk.ask("/charting/keys", { keys: keysOf(["Enter", "G", "Enter", "w", "7", "5", "g", "3", "Shift+Enter"]) });
  let done = 1;
  for (let kill = 0; kill < Number(process.env.CALLFIT_BROWSER_KILLS ?? 3); ++kill) {
    const own = await openBrowser();
    try {
      const page = await own.newPage();
      await page.goto(desk.address);
      await page.waitForSelector("#charting-room:not([hidden]) #rows table");
      setTimeout(() => own.close(), 200 + 600 * Math.random());
      await page.keyboard.press("Delete"); // what the one before left open
      for (;;) {
        for (const key of rowKeys(done)) await page.keyboard.press(key);
        await page.waitForFunction((count) => document.querySelector("#rows-head").textContent.startsWith(count + " row"), done + 1);
        done += 1;
      }
    } catch {
      done = checkRows(file, done, `browser ${kill}`);
    }
  }
  await desk.end();
});
