// The demo's game that two people charted, over a tape: the second chart has its times, the first one has none.

import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

import { makeTape } from "./tape.js";

const demo = join(resolve(dirname(fileURLToPath(import.meta.url)), "../.."), "profiles/demo");
const linesOf = (file) => readFileSync(join(demo, file), "utf8").trimEnd().split("\n");

/** A snap every so many seconds, from here on; it lasts so long. */
export const film = { apart: 10, first: 5, lasts: 4 };

export function putTwoCharts(folder, withTape = true) {
  const [head, ...mine] = linesOf("new-starter-C4-second-chart.csv");
  const timed = mine.map((row, at) => {
    const start = film.first + film.apart * at;
    return `${row},game.mp4,${start},${start + film.lasts}`;
  });
  writeFileSync(join(folder, "mine.csv"), [head + ",clip,start,end", ...timed, ""].join("\n"));
  const [names, ...theirs] = linesOf("new-starter.csv");
  writeFileSync(join(folder, "theirs.csv"), [names, ...theirs.filter((row) => row.startsWith("C4,")), ""].join("\n"));
  if (withTape) makeTape(join(folder, "game.mp4"), { seconds: film.first + film.apart * mine.length });
}

export const fromPaper = (folder) => [
  ...["--chart", join(folder, "mine.csv"), "--against", join(folder, "theirs.csv")],
  ...["--scheme", "balanced", "--draws", "500"],
];
export const words = (folder) => [...fromPaper(folder), "--tape", join(folder, "game.mp4")];
