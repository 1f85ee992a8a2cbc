// Requests for holding two builds against each other: every kind in turn, the same for the same seed.

/** A generator of numbers in [0, 1) (mulberry32, public domain, from memory). */
function random(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const kinds = [
  "fit", "drives", "compare", "try", "sweep", "levers", "break_even", "package", "tailor", "next", "trend", "brief", "say",
];

const rates = ["rate.intermediate.completion", "rate.quick_middle.completion", "rate.deep_outside.completion", "rate.boot.sack"];
const calls = ["call.all.boot", "call.all.intermediate", "call.all.deep_outside", "call.all.quick_middle"];

/**
 * @param {number} count
 * @param {number} quarterbacks of the case
 * @param {number} schemes of the case
 */
export function requests(count, quarterbacks, schemes, seed = 20) {
  const next = random(seed);
  const from = (list) => list[Math.floor(next() * list.length)];
  const place = (size) => 1 + Math.floor(next() * size);
  const change = () =>
    next() < 0.5
      ? { path: from(rates), set: 0.05 + 0.8 * next() }
      : { path: from(calls), scale: 0.25 + 2 * next() };
  const changes = () => {
    const made = Array.from({ length: Math.floor(next() * 3) }, change);
    return made.filter((one, at) => made.findIndex((other) => other.path === one.path) === at);
  };
  const stand = () => ({ quarterback: place(quarterbacks), scheme: place(schemes), changes: changes() });
  const of = {
    fit: () => ({ ...stand(), weights_by_points: next() < 0.3 }),
    drives: () => ({
      ...stand(),
      sampled_drives: next() < 0.3 ? 20000 : 0,
      ...(next() < 0.5 ? { from: { down: place(4), to_go: place(10), yards_to_goal: 20 + place(60) } } : {}),
    }),
    compare: () => ({ quarterbacks: [1, place(quarterbacks - 1) + 1], schemes: [place(schemes)] }),
    try: () => ({ ...stand(), tries: [{ name: "one", changes: [change()] }, { name: "two", changes: [change()] }] }),
    sweep: () => ({ ...stand(), ranges: [{ path: from(rates), from: 0.2, to: 0.6, count: 3 }] }),
    levers: stand,
    break_even: () => ({ first: { ...stand(), changes: [] }, second: { ...stand(), changes: [] }, path: from(rates) }),
    package: () => ({ ...stand(), package: { family: "qb_power", share: 0.1, inside_yards: 5, fade: 0.2 } }),
    tailor: () => ({ ...stand(), limits: { move: 0.05 } }),
    next: () => ({ ...stand(), snaps: 10 + place(50) }),
    trend: stand,
    brief: () => ({ first: { ...stand(), changes: [] }, second: { ...stand(), changes: [] } }),
    say: () => ({ ...stand(), against: { quarterback: place(quarterbacks), scheme: place(schemes) } }),
  };
  return Array.from({ length: count }, (_, at) => {
    const kind = kinds[at % kinds.length];
    return { kind, ...of[kind]() };
  });
}

/**
 * Handles put somewhere: none, one, then more of them.
 * @param {number[]} sizes how many places each handle has
 */
export function puts(count, sizes, seed = 20) {
  const next = random(seed);
  return Array.from({ length: count }, (_, turned) => ({
    put: sizes
      .map((size, handle) => ({ handle: handle + 1, at: Math.floor(next() * size) }))
      .sort(() => next() - 0.5)
      .slice(0, turned % (sizes.length + 1)),
  }));
}

/** The largest difference of numbers, relative above 1; infinite where anything else differs. */
export function apart(a, b) {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) / Math.max(1, Math.abs(a));
  if (typeof a !== typeof b || Array.isArray(a) !== Array.isArray(b)) return Infinity;
  if (a === null || b === null || typeof a !== "object") return a === b ? 0 : Infinity;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return Infinity;
  return keys.reduce((most, key) => Math.max(most, key in b ? apart(a[key], b[key]) : Infinity), 0);
}
