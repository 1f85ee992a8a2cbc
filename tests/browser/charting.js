// A typist who charts by keys in a real browser what a chart holds, looking at what the page shows. He
// counts his keys.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import { openPage } from "./browser.js";

/** Of a desk that begins with an empty folder, with other words behind them. */
export const words = (more = []) => (folder) => ["--chart", join(folder, "game.csv"), "--scheme", "balanced", "--draws", "500", ...more];
export const withTape = (folder) => words(["--tape", join(folder, "game.mp4")])(folder);

/** The desk's page with the charting room open. */
export async function openCharting(browser, desk, options) {
  const open = await openPage(browser, desk.address, options);
  await open.page.waitForSelector("#charting-room:not([hidden]) #rows table");
  return open;
}

/** Until the page has answered every key. */
export async function press(page, ...keys) {
  for (const key of keys) await page.keyboard.press(key);
  await page.waitForFunction(() => !document.querySelector("#keys-pad").hasAttribute("aria-busy"));
}

export const text = (page, query) => page.textContent(query);

/** Rows of a chart as objects; its fields hold no quotes or line ends, as the demo's do not outside notes. */
export function rowsOf(file) {
  const fields = (line) => [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map((one) => one[1].replace(/^"|"$/g, "").replace(/""/g, '"'));
  const [head, ...lines] = readFileSync(file, "utf8").trimEnd().split(/\r?\n/);
  const names = fields(head);
  return lines.map((line) => Object.fromEntries(fields(line).slice(0, names.length).map((text, at) => [names[at], text])));
}

export const needed = ["game", "level", "down", "to_go", "yards_to_goal", "family", "result", "yards"];
const place = ["game", "level", "opponent", "quarter", "down", "to_go", "yards_to_goal", "note"];
const plain = (text) => text.replaceAll("_", " ");
const number = (text) => (text === "" ? "" : String(Number(text)));

export class Typist {
  keys = 0;
  /** @type {Record<string, number>} */
  keysOf = {};

  /** @param {import("playwright-core").Page} page */
  constructor(page) {
    this.page = page;
  }

  /** What the page shows once it has answered every key. A number that is being typed counts as charted. */
  look() {
    return this.page.evaluate(async () => {
      while (document.querySelector("#keys-pad")?.hasAttribute("aria-busy")) await new Promise((done) => setTimeout(done, 1));
      const text = (/** @type {string} */ query) => document.querySelector(query)?.textContent ?? "";
      const cells = Object.fromEntries(
        [...document.querySelectorAll("#cells > div")].map((cell) => [
          cell.querySelector("dt")?.textContent ?? "",
          (cell.querySelector("dd")?.firstChild?.textContent ?? "").replace(/^–$/, ""),
        ]),
      );
      const asked = text("#asked span");
      const typing = text("#asked .typing");
      if (typing) cells[asked] = typing;
      return {
        isOpen: Object.keys(cells).length > 0,
        cells,
        typing,
        asked: typing ? text("#asked em").replace("then ", "") : asked,
        offer: typing ? "" : text("#asked small"),
        choices: [...document.querySelectorAll("#choices li")].map((one) => [
          one.querySelector("kbd")?.textContent ?? "",
          one.querySelector("span")?.textContent ?? "",
        ]),
        fault: document.getElementById("charting-fault")?.hidden ? "" : text("#charting-fault"),
      };
    });
  }

  async press(keys, what) {
    for (const key of keys) {
      this.keys += 1;
      this.keysOf[what] = (this.keysOf[what] ?? 0) + 1;
      await this.page.keyboard.press(key);
    }
  }

  text(words, what) {
    return this.press([...words].map((one) => (one === " " ? "Space" : one)), what);
  }

  /** The row of the film that is open now, from the mark to its last value. */
  async chart(row, columns) {
    await this.press(["Enter"], "mark");
    await this.#place(row);
    if (columns.includes("opponent")) await this.#game(row);
    await this.#details(row, columns);
  }

  async #place(row) {
    let shown = await this.look();
    if (!shown.isOpen || shown.fault) throw new Error("no row is open: " + shown.fault);
    if (shown.cells.game !== row.game) {
      if (shown.asked !== "game") await this.press(["F4"], "corrections");
      await this.text(row.game, "corrections");
      await this.press(["Enter"], "corrections");
      shown = await this.look();
    }
    if (shown.cells.level !== plain(row.level)) {
      while ((await this.look()).asked !== "level") await this.press([","], "corrections");
      await this.#choose(row.level, "corrections");
      shown = await this.look();
    }
    const want = [row.down, row.to_go, row.yards_to_goal].map(number);
    const has = [shown.cells.down, shown.cells["to go"], shown.cells["yards to goal"]];
    if (want[2] !== has[2]) {
      if (shown.asked !== "yards to goal") await this.press(["b"], "corrections");
      await this.press([...want[2]], "corrections");
    }
    if (want[2] === has[2] || !this.#follows(has.map(Number), want.map(Number))) {
      if (want[0] !== has[0] || want[1] !== has[1]) await this.press(["v", ...want[0], ...want[1]], "corrections");
    }
  }

  // What a typist expects the page to make of a spot; if he were wrong the charts would differ in the end.
  #follows([down, toGo, spot], [wantDown, wantToGo, wantSpot]) {
    const isSeries = wantDown === 1 && wantToGo === Math.min(10, wantSpot);
    if (!spot || Math.abs(spot - wantSpot) > 15) return isSeries;
    const line = spot - toGo;
    if (wantSpot <= line || this.isFirstDown) return isSeries;
    return wantDown === down && wantSpot - wantToGo === line;
  }

  async #game(row) {
    const shown = await this.look();
    if ((row.opponent ?? "") !== shown.cells.opponent) {
      await this.press(["F8"], "corrections");
      await this.text(row.opponent, "corrections");
      await this.press(["Enter"], "corrections");
    }
    for (let now = Number(shown.cells.quarter); now < Number(row.quarter); ++now) await this.press(["F2"], "corrections");
  }

  async #choose(value, what) {
    const { choices } = await this.look();
    const found = choices.find(([, words]) => words === plain(value));
    if (!found) throw new Error("no key for " + value);
    await this.press([found[0]], what);
  }

  async #details(row, columns) {
    const details = columns.filter((one) => !place.includes(one) && row[one]);
    for (let turns = 0; ; ++turns) {
      const { asked, cells, typing, offer, choices, fault } = await this.look();
      if (fault || turns > 40) throw new Error(JSON.stringify(row) + ": " + (fault || "no end at " + asked));
      const left = details.filter((one) => cells[plain(one)] !== plain(row[one]));
      if (left.length === 0) return;
      if (left.includes("result") && cells.result !== "" && asked !== "result") {
        await this.press([","], "result"); // a foul on a run: the result that follows is another
        continue;
      }
      const names = asked.split(", ").map((one) => one.replaceAll(" ", "_"));
      const what = names.join("+");
      const said = names.filter((one) => left.includes(one));
      if (said.length === 0) {
        if (typing) await this.press(["."], "number ends");
        await this.press(["."], "skipped");
      } else if (choices.length > 0) {
        await this.#choose(this.#words(row, names), what);
      } else {
        if (typing) await this.press(["."], "number ends");
        const value = row[said[0]];
        if (/takes (-?\d+)/.exec(offer)?.[1] === value) await this.press(["f"], what);
        else if (what === "yards" && value === cells["yards to goal"]) await this.press(["g"], what);
        else await this.press([...value], what);
      }
    }
  }

  #words(row, names) {
    const one = (column) =>
      names.length === 1 || !["yes", "no"].includes(row[column])
        ? plain(row[column])
        : (row[column] === "yes" ? "" : column === "pressure" ? "no " : "not ") + plain(column);
    return names.filter((column) => row[column]).map(one).join(", ");
  }
}

/**
 * What the same rows take in a spreadsheet: every character and a key to the next cell, over blank cells too.
 * With `completes`, words are ended by the sheet as soon as they differ from all others of their column, and a
 * cell that is that of the row above takes one key.
 */
export function sheetKeys(rows, columns, completes = false) {
  let keys = 0;
  const words = Object.fromEntries(columns.map((one) => [one, [...new Set(rows.map((row) => row[one] ?? ""))]]));
  rows.forEach((row, at) => {
    for (const one of columns) {
      const value = row[one] ?? "";
      keys += 1; // to the next cell or row
      if (!value) continue;
      if (!completes) keys += value.length;
      else if (at > 0 && rows[at - 1][one] === value) keys += 1;
      else if (/^-?\d+$/.test(value)) keys += value.length;
      else keys += shortest(value, words[one]);
    }
  });
  return keys;
}

function shortest(value, words) {
  for (let size = 1; size < value.length; ++size)
    if (words.filter((one) => one.startsWith(value.slice(0, size))).length === 1) return size;
  return value.length;
}
