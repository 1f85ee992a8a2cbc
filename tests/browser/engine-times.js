// What the engine of a page costs beside the program, as ratios of processor time in one run: node engine-times.js.
// Both answer a question to a case just opened, on one core; the shortest of several counts. Exact solves: a man whose
// every draw is solved. An interval: the demo's first man, from charted counts to points with their ends.

import { demoFolder, engineOf, makePage, stranger, timesOfProgram } from "./page.js";

const request = { kind: "drives" };

async function timeOfEngine(page) {
  const engine = await engineOf(page);
  const from = process.cpuUsage();
  engine.ask(request);
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1e6;
}

async function compare(what, prepare, times) {
  const demo = demoFolder();
  prepare(demo.folder);
  const page = makePage(demo.folder);
  const program = [];
  const engine = [];
  for (let i = 0; i < times; ++i) {  // by turns: other work on the machine meets both
    program.push(...timesOfProgram(page, [request]));
    engine.push(await timeOfEngine(page));
  }
  demo.end();
  const [own, native] = [Math.min(...engine), Math.min(...program)];
  console.log(`${what}: engine ${own.toFixed(3)} s, program ${native.toFixed(3)} s, ${(own / native).toFixed(2)} times`);
}

await compare("exact solves", stranger, 2);
await compare("an interval", () => {}, 7);
