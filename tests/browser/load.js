// A desk under load: node load.js [DRAGS]. A chart of 10,000 rows, a thousand requests at once, and memory
// while a hand drags. Ends with 1 where something is not as it should be.

import { readFileSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { join } from "node:path";

import { openBrowser, openPage, ready } from "./browser.js";
import { openDesk } from "./desk.js";

const drags = Number(process.argv[2] ?? 10_000);
const rows = 10_000;
let faults = 0;
const check = (isSo, what) => {
  console.log((isSo ? "  so: " : "  NOT SO: ") + what);
  if (!isSo) ++faults;
};
const residentMegabytes = (id) => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${id}/status`, "utf8"))[1]) / 1024;
const timed = async (act) => {
  const from = performance.now();
  await act();
  return ((performance.now() - from) / 1000).toFixed(1) + " s";
};

/** The demo's chart over and over, each time with games of its own. */
function longChart(folder) {
  const file = join(folder, "new-starter.csv");
  const [heads, ...lines] = readFileSync(file, "utf8").trimEnd().split("\n");
  const long = [];
  for (let time = 0; long.length < rows; ++time)
    for (const line of lines) if (long.length < rows) long.push(time === 0 ? line : line.replace(/^[^,]*/, `$&-${time}`));
  writeFileSync(file, [heads, ...long].join("\n") + "\n");
}

async function tenThousandRows(browser) {
  console.log(`a chart of ${rows} rows`);
  let desk;
  console.log("  opened in " + (await timed(async () => (desk = await openDesk(longChart)))));
  const { page, said, context } = await openPage(browser, desk.address);
  console.log("  first view in " + (await timed(() => ready(page))));
  const snaps = async () => {
    await page.locator("#why").click();
    await page.waitForSelector("#snaps table");
  };
  console.log("  snaps behind the place in " + (await timed(snaps)));
  check((await page.textContent("#snaps summary")) === `All ${rows} rows`, "all rows are told of");
  check((await page.locator("#snaps details tbody tr").count()) <= 500, "the page lists at most 500");
  check(said.length === 0, "the page has nothing to complain of " + said.join(" "));
  console.log(`  ${residentMegabytes(desk.process.pid).toFixed(0)} MB`);
  await context.close();
  await desk.end();
}

async function aThousandAtOnce(desk) {
  console.log("a thousand requests at once");
  const at = new URL(desk.address);
  const one = () =>
    new Promise((done) => {
      const call = request(
        { host: at.hostname, port: at.port, path: "/view", method: "POST", agent: false,
          headers: { "Content-Type": "application/json", "X-Callfit-Token": at.hash.slice(1) } },
        (reply) => {
          reply.resume();
          reply.on("end", () => done(reply.statusCode));
          reply.on("error", () => done("refused"));
        },
      );
      call.on("error", () => done("refused"));
      call.end(JSON.stringify({ following: true }));
    });
  const outcomes = await Promise.all(Array.from({ length: 1000 }, one));
  const answered = outcomes.filter((one) => one === 200).length;
  const refused = outcomes.filter((one) => one === "refused").length;
  console.log(`  ${answered} answered, ${refused} refused`);
  check(answered + refused === 1000 && answered > 0, "each is answered or refused");
  check((await one()) === 200, "and the next one is answered");
}

async function memoryWhileDragging(desk, browser) {
  console.log(`memory over ${drags} moves of a hand`);
  const { page, said, context } = await openPage(browser, desk.address);
  await ready(page);
  const box = await page.locator('.handle[data-path="rate.intermediate.completion"]').boundingBox();
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  const cdp = await context.newCDPSession(page);
  const pageMegabytes = async () => {
    await cdp.send("HeapProfiler.collectGarbage");
    const { usedSize } = await cdp.send("Runtime.getHeapUsage");
    return usedSize / 2 ** 20;
  };
  await page.evaluate(() => {
    window.frames_ = 0;
    document.addEventListener("desk-frame", () => ++window.frames_);
  });
  const round = async (moves) => {
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 0; i < moves; ++i) {
      await page.mouse.move(x + 60 * Math.sin(i / 7), y);
      await page.waitForTimeout(16);
    }
    await page.mouse.move(x, y);
    await page.mouse.up();
    await page.waitForTimeout(300);
  };
  // What is made once is made first: some standings are remembered.
  const rounds = 20;
  for (let i = 0; i < 4; ++i) await round(drags / rounds);
  const program = [residentMegabytes(desk.process.pid)];
  const heap = [await pageMegabytes()];
  for (let i = 4; i < rounds; ++i) {
    await round(drags / rounds);
    if (i % 4 !== 3) continue;
    program.push(residentMegabytes(desk.process.pid));
    heap.push(await pageMegabytes());
  }
  const told = (list) => list.map((one) => one.toFixed(1)).join(", ");
  console.log(`  program ${told(program)} MB; page ${told(heap)} MB`);
  const frames = await page.evaluate(() => window.frames_);
  console.log(`  ${frames} pictures followed`);
  check(frames > drags / 100, "the picture followed the hand");
  check(program.at(-1) < program[0] * 1.1 + 5, "the program's memory stays flat");
  check(heap.at(-1) < heap[0] * 1.25 + 2, "the page's memory stays flat");
  check(said.length === 0, "the page has nothing to complain of " + said.join(" "));
  await context.close();
}

const browser = await openBrowser();
await tenThousandRows(browser);
const desk = await openDesk();
await aThousandAtOnce(desk);
await memoryWhileDragging(desk, browser);
await browser.close();
await desk.end();
process.exit(faults > 0 ? 1 : 0);
