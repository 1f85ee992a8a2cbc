// A page in a reader's hands, in a real browser from disk with the network cut.

import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";

import { openBrowser, patience } from "./browser.js";
import { askInPage, changeCase, demoFolder, engineOf, makePage } from "./page.js";
import { apart } from "./requests.js";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

let demo, browser, file, heard, listener;
before(async () => {
  demo = demoFolder();
  file = makePage(demo.folder);
  browser = await openBrowser();
  heard = [];
  listener = createServer((request, reply) => {
    heard.push(request.url);
    reply.end();
  });
  await new Promise((listening) => listener.listen(0, "127.0.0.1", listening));
});
after(async () => {
  await browser?.close();
  listener?.close();
  demo?.end();
  assert.deepEqual(heard, [], "nobody was asked anything");
});

/** Opens a file with the network cut; what the page says or asks for is kept. */
async function open(address, options = {}) {
  const context = await browser.newContext({ viewport: { width: 360, height: 800 }, ...options });
  await context.setOffline(true);
  const page = await context.newPage();
  page.setDefaultTimeout(patience);
  const said = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) said.push(message.text());
  });
  page.on("pageerror", (error) => said.push(String(error)));
  page.on("request", (request) => {
    if (!/^(file|data|blob):/.test(request.url())) said.push("asked elsewhere: " + request.url());
  });
  await page.goto(address);
  return { page, said, context };
}

const ready = (page) => page.waitForSelector("#turning:not([hidden])");
const settled = (page) =>
  page.evaluate(() => new Promise((done) => document.addEventListener("settled", done, { once: true })).then(() => true));
const turn = async (page, handle, at) => {
  const end = settled(page);
  await page.evaluate(
    ([handle, at]) => {
      const input = document.querySelector("#handle-" + handle);
      input.value = at;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    },
    [handle, String(at)],
  );
  await end;
};

test("the page is one file of at most 1.5 MB and opens from disk without a network", async () => {
  assert.ok(statSync(file).size <= 1_500_000, `${statSync(file).size} bytes`);
  const { page, said, context } = await open(pathToFileURL(file).href);
  assert.match(await page.textContent("h1"), /\w+ \w+/);
  await ready(page);
  assert.equal(await page.locator("#handles input").count(), 5);
  assert.deepEqual(said, []);
  await context.close();
});

test("a turned handle moves verdict, numbers and address as the program says; one press leads back", async () => {
  const { page, said, context } = await open(pathToFileURL(file).href);
  await ready(page);
  const first = await page.textContent("#verdict");
  assert.equal(first, await page.textContent("h1"));
  await turn(page, 5, 30);
  const engine = await engineOf(file);
  const shown = engine.show({ put: [{ handle: 5, at: 30 }] });
  assert.equal(await page.textContent("#verdict"), shown.headline);
  assert.equal(await page.textContent("#effect"), shown.effect);
  assert.deepEqual(await page.locator("#rows td.yours").allTextContents(), shown.rows.map((row) => row.value));
  const drawn = await page.locator("#rows circle.yours").evaluateAll((all) => all.map((one) => Number(one.getAttribute("cx"))));
  assert.deepEqual(drawn, shown.rows.map((row) => row.strip[1]));
  assert.ok(await page.locator("#place circle.yours").isVisible());
  assert.match(await page.textContent("figcaption"), /analyst’s picture/);
  assert.ok(await page.isVisible("figcaption"));
  assert.equal(await page.textContent("#handles .handle:nth-child(5) output"), "70%");
  assert.ok(page.url().endsWith("#rate.intermediate.completion=0.7"), page.url());
  const end = settled(page);
  await page.click("#back");
  await end;
  assert.equal(await page.textContent("#verdict"), first);
  assert.equal(await page.textContent("#effect"), "");
  assert.ok(await page.isHidden("figcaption"));
  assert.equal(await page.locator(".yours:visible").count(), 0);
  assert.ok(!page.url().includes("#"), page.url());
  assert.ok(await page.isDisabled("#back"));
  assert.deepEqual(said, []);
  await context.close();
});

test("a handle is turned by keys", async () => {
  const { page, context } = await open(pathToFileURL(file).href);
  await ready(page);
  const before = await page.inputValue("#handle-2");
  await page.focus("#handle-2");
  const end = settled(page);
  await page.keyboard.press("ArrowRight");
  await end;
  assert.equal(Number(await page.inputValue("#handle-2")), Number(before) + 1);
  assert.equal(await page.getAttribute("#handle-2", "aria-valuetext"), await page.textContent("#handles .handle:nth-child(2) output"));
  await context.close();
});

test("a try that was sent is opened, and one that is none is told", async () => {
  const address = pathToFileURL(file).href;
  const { page, said, context } = await open(address + "#call.all.boot=0.22&rate.intermediate.completion=0.43");
  await ready(page);
  await page.waitForFunction(() => document.querySelector("#answer").getAttribute("aria-busy") === "false");
  assert.equal(await page.textContent("#handles .handle:nth-child(2) output"), "22%");
  assert.equal(await page.textContent("#handles .handle:nth-child(5) output"), "43%");
  assert.notEqual(await page.textContent("#effect"), "");
  assert.deepEqual(said, []);
  await context.close();
  for (const text of ["call.all.boot=0.99", "<img src=x onerror=alert(1)>", "%", "policy=best"]) {
    const wrong = await open(address + "#" + text);
    await wrong.page.waitForSelector("#fault:not([hidden])");
    assert.match(await wrong.page.textContent("#fault"), /cannot be shown/);
    assert.equal(await wrong.page.textContent("#verdict"), await wrong.page.textContent("h1"));
    assert.equal(await wrong.page.locator("#fault *").count(), 0);
    assert.deepEqual(wrong.said, []);
    await wrong.context.close();
  }
});

test("the engine in the browser answers as under node, and the page's policy lets nothing out", async () => {
  const { page, context } = await open(pathToFileURL(file).href);
  await ready(page);
  const requests = [{ kind: "fit" }, { kind: "drives" }, { kind: "say", against: { quarterback: 2, scheme: 1 } }];
  const engine = await engineOf(file);
  const answers = await askInPage(page, requests.map((request) => ["ask", request]));
  requests.forEach((request, place) => assert.ok(apart(engine.ask(request), answers[place]) <= 1e-9, request.kind));
  await context.setOffline(false);
  const there = `http://127.0.0.1:${listener.address().port}/`;
  const tried = await page.evaluate(async (there) => {
    const tries = {
      fetch: () => fetch(there, { mode: "no-cors" }),
      image: () =>
        new Promise((done, failed) => {
          const image = new Image();
          image.onload = done;
          image.onerror = failed;
          image.src = there;
        }),
      beacon: async () => {
        if (!navigator.sendBeacon(there, "x")) throw new Error("refused");
        await new Promise((done) => setTimeout(done, 500));
        throw new Error("taken, but not sent: the listener tells");
      },
      script: () =>
        new Promise((done, failed) => {
          const script = document.createElement("script");
          script.src = there;
          script.onload = done;
          script.onerror = failed;
          document.head.append(script);
        }),
    };
    const outcomes = {};
    for (const [name, act] of Object.entries(tries))
      outcomes[name] = await act().then(
        () => "let out",
        () => "refused",
      );
    return outcomes;
  }, there);
  assert.deepEqual(tried, { fetch: "refused", image: "refused", beacon: "refused", script: "refused" });
  assert.deepEqual(heard, []);
  await context.close();
});

test("with scripts off it is an article with the picture and the numbers", async () => {
  const { page, context } = await open(pathToFileURL(file).href, { javaScriptEnabled: false });
  assert.match(await page.textContent("h1"), /\w+/);
  assert.ok(await page.locator("figure img").isVisible());
  assert.ok((await page.locator("#rows tr").count()) > 5);
  assert.ok(await page.locator("#turning").isHidden());
  assert.match(await page.textContent("article"), /data about minors/);
  await context.close();
});

test("names, notes and styles cannot become script", async () => {
  const own = demoFolder();
  const hostile = '</script><script>document.title="owned"</script><img src=x onerror=\'document.title="owned"\'>';
  changeCase(own.folder, (about) => {
    about.options = { draws: 500 };
    about.quarterbacks[0].name = hostile;
    about.schemes[0].name = "</style><svg onload=alert(1)>" + "s";
    about.tape_source = hostile;
    about.page.handles[0].words = hostile.slice(0, 110);
    about.style = { format: "callfit-style/1", wording: { fit_kicker: hostile + " {player}" } };
  });
  const { page, said, context } = await open(pathToFileURL(makePage(own.folder)).href);
  await ready(page);
  await turn(page, 1, 3);
  assert.notEqual(await page.title(), "owned");
  assert.equal(await page.locator("img").count(), 1);
  assert.equal(await page.locator("script").count(), 4);
  assert.equal(await page.locator("svg:not(.strip)").count(), 0);
  assert.deepEqual(said, []);
  await context.close();
  own.end();
});

test("axe finds nothing serious, and nothing is wider than the window", async () => {
  for (const colorScheme of ["light", "dark"])
    for (const viewport of [{ width: 1440, height: 900 }, { width: 360, height: 800 }]) {
      const { page, context } = await open(pathToFileURL(file).href, { colorScheme, viewport, bypassCSP: true });
      await ready(page);
      await turn(page, 4, 20);
      await page.evaluate(axe);
      const found = await page.evaluate(() => window.axe.run());
      const serious = found.violations.filter((one) => ["serious", "critical"].includes(one.impact));
      assert.deepEqual(serious.map((one) => [one.id, one.nodes.slice(0, 3).map((node) => node.html)]), []);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `the page is ${wide} pixels too wide at ${viewport.width}`);
      const handles = await page.locator("#handles").boundingBox();
      assert.ok(handles.height <= viewport.height, `handles take ${handles.height} of ${viewport.height} pixels`);
      await context.close();
    }
});

test("an anonymous page names nobody", async () => {
  const own = demoFolder();
  changeCase(own.folder, (about) => {
    about.options = { draws: 500 };
    about.quarterbacks[0].name = "Rowan Invented";
    about.quarterbacks[1].name = "Sasha Madeup";
  });
  const html = readFileSync(makePage(own.folder, "page.html", ["--anonymous"]), "utf8");
  assert.ok(!/Rowan|Sasha/.test(html));
  assert.ok(html.includes("New starter"));
  own.end();
});
