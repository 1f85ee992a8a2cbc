// One evening at the desk, in a real browser: from the demo's case to a turned weight, a named try, the
// snaps behind a number and a published picture.

import assert from "node:assert/strict";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { createRequire } from "node:module";

import { openBrowser, openPage, ready } from "./browser.js";
import { openDesk } from "./desk.js";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const ball = '.handle[data-path="rate.intermediate.completion"]';

let desk, browser;
before(async () => {
  desk = await openDesk();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await desk?.end();
});

const valueOf = (page, handle) => page.getAttribute(handle, "aria-valuetext");
const settled = (page) =>
  page.evaluate(() => new Promise((done) => document.addEventListener("desk-settled", (e) => done(e.detail), { once: true })));

async function drag(page, handle, way, steps = 10) {
  const box = await page.locator(handle).boundingBox();
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  const end = settled(page);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= steps; ++i) {
    await page.mouse.move(x + (way * i) / steps, y);
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  return end;
}

test("the first view says the verdict, shows the picture and what is worth trying", async () => {
  const { page, said, context } = await openPage(browser, desk.address);
  await ready(page);
  assert.match(await page.textContent("#verdict"), /\w+ \w+/);
  assert.match(await page.textContent("#paragraph"), /of 100 quarterbacks/);
  const tries = await page.locator("#trying button").count();
  assert.ok(tries >= 2 && tries <= 3, `${tries} things to try`);
  assert.ok(!page.url().includes("#"), "the token left the address");
  assert.deepEqual(said, []);
  await page.reload();
  await ready(page);
  await context.close();
});

test("a ball, what is asked and a call share are dragged; the last turn is taken back", async () => {
  const { page, said, context } = await openPage(browser, desk.address);
  await ready(page);
  for (const path of ["rate.intermediate.completion", "demand.intermediate.completion.level", "call.all.intermediate"]) {
    const handle = `.handle[data-path="${path}"]`;
    const began = await valueOf(page, handle);
    await drag(page, handle, 60);
    assert.notEqual(await valueOf(page, handle), began, path);
    assert.match(await valueOf(page, handle), /began at/);
    assert.match(await page.textContent("#turned"), / to /);
    const back = page.waitForFunction(([h, b]) => document.querySelector(h)?.getAttribute("aria-valuetext") === b, [handle, began]);
    await page.keyboard.press("Escape");
    await back;
    assert.ok(await page.isHidden("#turned"));
  }
  assert.deepEqual(said, []);
  await context.close();
});

/** Whether the picture on the page is the program's own, though only what differed was touched. */
const isAsDrawn = (page, svg) =>
  page.evaluate((text) => {
    const drawn = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
    for (const name of ["width", "height"]) drawn.removeAttribute(name);
    return document.importNode(drawn, true).isEqualNode(document.querySelector("#picture svg"));
  }, svg);

test("after any turn the picture on the page is the program's own", async () => {
  const { page, context } = await openPage(browser, desk.address);
  const views = [];
  page.on("response", (reply) => {
    const isSettled = reply.url().endsWith("/view") && !reply.request().postDataJSON().following;
    if (isSettled) views.push(reply.json());
  });
  await ready(page);
  const isOwn = async () => isAsDrawn(page, (await views.at(-1)).svg);
  assert.ok(await isOwn(), "at first");
  for (const path of ["rate.intermediate.completion", "call.all.intermediate"]) {
    await drag(page, `.handle[data-path="${path}"]`, 90);
    assert.ok(await isOwn(), path);
  }
  assert.ok(!(await isAsDrawn(page, (await views[0]).svg)), "the twin: as it was at first");
  // While a hand moves, the picture is mostly the same elements, with other lines.
  await page.evaluate(() => {
    window.pictures_ = [];
    document.addEventListener("desk-frame", () => window.pictures_.push(document.querySelector("#picture svg")));
  });
  await drag(page, '.handle[data-path="call.all.intermediate"]', 30, 40);
  const frames = await page.evaluate(() => [window.pictures_.length, new Set(window.pictures_).size]);
  assert.ok(frames[0] > 2 * frames[1], "in " + frames[0] + " frames " + frames[1] + " pictures");
  await page.selectOption("#quarterback", { index: 1 });
  await page.waitForFunction(() => document.querySelector("#turned")?.hidden);
  assert.ok(await isOwn(), "another man");
  await context.close();
});

test("keys alone do all of it: move, type, keep, publish", async () => {
  const { page, said, context } = await openPage(browser, desk.address);
  await ready(page);
  await page.focus(ball);
  const began = await valueOf(page, ball);
  let end = settled(page);
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await end;
  assert.notEqual(await valueOf(page, ball), began);
  end = settled(page);
  await page.keyboard.press("Enter");
  await page.keyboard.type("61%");
  await page.keyboard.press("Enter");
  await end;
  assert.match(await valueOf(page, ball), /^61%/);
  await page.focus("#name");
  await page.keyboard.type("Sixty-one of a hundred");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#tries table");
  const kept = JSON.parse(readFileSync(join(desk.folder, "case.json"), "utf8"));
  assert.deepEqual(kept.tries.at(-1), {
    name: "Sixty-one of a hundred",
    changes: [{ path: "rate.intermediate.completion", set: 0.61 }],
  });
  assert.equal(kept.tries.length, 3);
  await page.focus("#publish");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelector("#kept-status").textContent.includes("Written"));
  for (const ending of ["svg", "png", "txt"])
    assert.ok(existsSync(join(desk.folder, "sixty-one-of-a-hundred." + ending)), ending);
  assert.deepEqual(said, []);
  await context.close();
});

test("a number is clicked, or S pressed, and its snaps are read beside it", async () => {
  const { page, said, context } = await openPage(browser, desk.address);
  await ready(page);
  assert.ok(await page.isHidden("#snaps"));
  await page.locator(ball).click();
  await page.waitForSelector("#snaps table");
  assert.match(await page.textContent("#snaps-head"), /^Completion.*%/);
  assert.match(await page.textContent("#snaps-rows > p"), /with nothing charted to/);
  const rows = page.locator("#snaps-rows details tbody tr");
  const heads = await page.locator("#snaps-rows details thead th").allTextContents();
  assert.deepEqual(heads.slice(0, 5), ["row", "moved", "down", "result", "counted"]);
  // The rows are those of the family in the chart itself, by their lines.
  const chart = readFileSync(join(desk.folder, "new-starter.csv"), "utf8").split("\n");
  const expected = chart.flatMap((line, place) => (line.split(",")[7] === "intermediate" ? [`new-starter.csv:${place + 1}`] : []));
  const shown = await page.locator("#snaps-rows details tbody th").allTextContents();
  assert.equal(await rows.count(), expected.length);
  assert.deepEqual(shown, expected);
  await page.keyboard.press("Escape");
  await page.locator("#why").focus();
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => /place of 100/i.test(document.querySelector("#snaps-head").textContent));
  assert.equal(await page.evaluate(() => document.activeElement.id), "snaps");
  assert.ok((await page.locator("#snaps-rows > .table").count()) === 2, "those that moved it most, both ways");
  await page.keyboard.press("Escape");
  assert.ok(await page.isHidden("#snaps"));
  assert.equal(await page.evaluate(() => document.activeElement.id), "why");
  await page.focus(ball);
  await page.keyboard.press("s");
  await page.waitForSelector("#snaps:not([hidden]) table");
  await page.fill("#snaps-number", "deep outside completion");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelector("#snaps-number").value === "rate.deep_outside.completion");
  await page.fill("#snaps-number", "nothing of the kind");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#fault:not([hidden])");
  assert.deepEqual(said.filter((one) => !one.includes("422")), []);
  await context.close();
});

test("what was said before is seen with what came of it", async () => {
  const own = await openDesk((folder) =>
    writeFileSync(
      join(folder, "said.json"),
      JSON.stringify({
        format: "callfit-kept/1", date: "2026-09-01", quarterback: "New starter", scheme: "New coordinator's scheme",
        charted_snaps: 40, games: [{ game: "an earlier one", charted_snaps: 40 }],
        verdicts: [{ family: "quick_middle", family_label: "Quick middle", measure: "completion", label: "completion",
          asked: 0.5, more_is_better: true, estimate: { centre: 0.6, low: 0.5, high: 0.7 }, odds: 0.95 }],
      }),
    ));
  const { page, said, context } = await openPage(browser, own.address);
  await ready(page);
  await page.locator("#said-part > summary").click();
  await page.waitForSelector("#said li small");
  assert.match(await page.textContent("#said li small"), /\d+ of \d+ since/);
  assert.deepEqual(said, []);
  await context.close();
  await own.end();
});

const hostile = `<img src=x onerror="document.title='in'"><script>1</script>'&amp;`;

test("names and notes of a chart never become markup", async () => {
  const own = await openDesk((folder) => {
    const file = join(folder, "case.json");
    const about = JSON.parse(readFileSync(file, "utf8"));
    about.name = about.tape_source = hostile;
    about.quarterbacks[0].name = hostile;
    about.schemes[0].name = "Scheme " + hostile;
    about.tries[0].name = hostile;
    writeFileSync(file, JSON.stringify(about));
    const chart = join(folder, "new-starter.csv");
    const quoted = '"' + hostile.replaceAll('"', '""') + '"';
    const [heads, ...rows] = readFileSync(chart, "utf8").trimEnd().split("\n");
    const columns = heads.split(",");
    const row = (line) => {
      const cells = line.split(",");
      cells[columns.indexOf("game")] = '"' + cells[0] + hostile.replaceAll('"', '""') + '"';
      cells[columns.indexOf("opponent")] = quoted;
      cells[columns.indexOf("note")] = quoted;
      return [...cells, quoted, "1:23", "1:31"].join(",");
    };
    writeFileSync(chart, [heads + ",clip,start,end", ...rows.map(row)].join("\n") + "\n");
  });
  const { page, said, context } = await openPage(browser, own.address);
  await ready(page);
  for (const part of ["#tries-part", "#all-part", "#said-part", "#words-part"])
    await page.locator(part + " > summary").click();
  await page.waitForSelector("#tries table");
  await page.locator("#why").click();
  await page.waitForSelector("#snaps table");
  await page.locator("#snaps details > summary").click();
  assert.ok((await page.textContent("#snaps")).includes("1:23-1:31 " + hostile), "the film is told as text");
  assert.ok((await page.textContent("#case-name")).includes(hostile));
  assert.equal(await page.locator("img, #picture script, main script").count(), 0);
  assert.notEqual(await page.title(), "in");
  assert.deepEqual(said, []);
  await context.close();
  await own.end();
});

test("text at twice its size and without motion: nothing is cut off, and all of it works", async () => {
  const { page, said, context } = await openPage(browser, desk.address, { reducedMotion: "reduce" });
  await ready(page);
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  await page.waitForTimeout(500);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `the page is ${wide} pixels too wide`);
  const cut = await page.evaluate(() =>
    [...document.querySelectorAll("button, p, h2, label, summary, li")]
      .filter((one) => one.getClientRects().length > 0 && one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).overflow !== "visible")
      .map((one) => one.outerHTML.slice(0, 80)));
  assert.deepEqual(cut, []);
  const moving = await page.evaluate(() =>
    [...document.querySelectorAll("*")].filter((one) => parseFloat(getComputedStyle(one).transitionDuration) > 0).length);
  assert.equal(moving, 0);
  await page.focus(ball);
  const end = settled(page);
  await page.keyboard.press("ArrowRight");
  await end;
  assert.ok(!(await page.isHidden("#turned")));
  assert.deepEqual(said, []);
  await context.close();
});

test("what is worth trying is pressed, terms tell what they mean, the man is changed", async () => {
  const { page, said, context } = await openPage(browser, desk.address);
  await ready(page);
  await page.locator("#trying button").first().click();
  await page.waitForSelector("#turned:not([hidden])");
  await page.locator(".term").first().click();
  assert.ok((await page.textContent("#meaning-text")).length > 10);
  await page.keyboard.press("Escape");
  assert.ok(await page.isHidden("#meaning"));
  assert.ok(!(await page.isHidden("#turned")), "Escape closed the meaning alone");
  await page.selectOption("#quarterback", { index: 1 });
  await page.waitForFunction(() => document.title.includes("Last starter"));
  assert.ok(await page.isHidden("#turned"));
  assert.deepEqual(said, []);
  await context.close();
});

test("axe finds nothing serious in any view", async () => {
  for (const colorScheme of ["light", "dark"])
    for (const viewport of [{ width: 1440, height: 900 }, { width: 360, height: 800 }]) {
      const { page, context } = await openPage(browser, desk.address, { colorScheme, viewport, bypassCSP: true });
      await ready(page);
      for (const part of ["#tries-part", "#all-part", "#said-part", "#words-part"])
        await page.locator(part + " > summary").click();
      await page.waitForSelector("#tries table");
      await page.waitForSelector("#all table");
      await page.locator("#why").click();
      await page.waitForSelector("#snaps table");
      await page.locator("#snaps details > summary").click();
      await page.evaluate(axe);
      const found = await page.evaluate(() => window.axe.run());
      const serious = found.violations.filter((one) => ["serious", "critical"].includes(one.impact));
      assert.deepEqual(
        serious.map((one) => [one.id, one.nodes.slice(0, 3).map((node) => node.html)]),
        [],
        `${colorScheme} ${viewport.width}`,
      );
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `the page is ${wide} pixels too wide at ${viewport.width}`);
      await context.close();
    }
});

test("a page of another origin gets nothing", async () => {
  const token = new URL(desk.address).hash.slice(1);
  const place = new URL(desk.address).origin;
  const server = createServer((_, reply) => reply.setHeader("Content-Type", "text/html").end("<h1>elsewhere</h1>"));
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
  const got = await page.evaluate(
    async ([place, token]) => {
      const outcomes = {};
      const attempt = async (name, act) => {
        try {
          outcomes[name] = await act();
        } catch (error) {
          outcomes[name] = "refused";
        }
      };
      const json = { "Content-Type": "application/json", "X-Callfit-Token": token };
      await attempt("json", async () => (await fetch(place + "/case", { method: "POST", headers: json, body: "{}" })).text());
      await attempt("plain", async () => (await fetch(place + "/case", { method: "POST", body: "{}" })).text());
      await attempt("page", async () => (await fetch(place + "/")).text());
      await attempt("blind", async () => {
        const reply = await fetch(place + "/tries/drop", { method: "POST", mode: "no-cors", body: '{"name":"twice the screens"}' });
        return reply.type === "opaque" ? "refused" : "read";
      });
      await attempt("script", () =>
        new Promise((done, failed) => {
          const script = document.createElement("script");
          script.src = place + "/desk.js";
          script.type = "module";
          script.onload = () => done("loaded");
          script.onerror = failed;
          document.head.append(script);
        }));
      await attempt("frame", () =>
        new Promise((done) => {
          const frame = document.createElement("iframe");
          frame.src = place + "/";
          frame.onload = () => {
            try {
              done(frame.contentDocument?.body ? "read" : "refused");
            } catch {
              done("refused");
            }
          };
          document.body.append(frame);
        }));
      return outcomes;
    },
    [place, token],
  );
  for (const [way, outcome] of Object.entries(got)) assert.equal(outcome, "refused", way);
  const kept = JSON.parse(readFileSync(join(desk.folder, "case.json"), "utf8"));
  assert.ok(kept.tries.some((one) => one.name === "twice the screens"), "nothing was dropped blindly");
  await context.close();
  server.close();
});

test("without the token the page says so and shows nothing", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(new URL(desk.address).origin + "/");
  await page.waitForSelector("#fault:not([hidden])");
  assert.match(await page.textContent("#fault"), /token/);
  assert.equal(await page.locator("#picture svg").count(), 0);
  await context.close();
});

test("Ctrl-C ends the desk, and an open page says so", async () => {
  const own = await openDesk();
  const { page, context } = await openPage(browser, own.address);
  await ready(page);
  await page.waitForTimeout(1000);
  assert.equal(await own.end(), 0);
  await page.locator("#trying button").first().click();
  await page.waitForSelector("#fault:not([hidden])");
  assert.match(await page.textContent("#fault"), /ended/);
  await context.close();
});
