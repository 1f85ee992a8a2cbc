// The one way to the program: a question as JSON out, an answer as JSON in.

/** @typedef {{path: string, set?: number | string, scale?: number}} Change */
/** @typedef {{quarterback: number, scheme: number, changes: Change[]}} Stand places count from 1 */
/** @typedef {{path: string, steps?: number, units?: number, typed?: string}} Turn */
/**
 * @typedef {object} Handle one thing that can be turned; the words are the program's
 * @property {string} path
 * @property {string} name
 * @property {number} now
 * @property {number} low
 * @property {number} high
 * @property {string} text
 * @property {string} began
 * @property {boolean} is_turned
 * @property {string} [snaps] the number whose snaps it rests on
 */
/** @typedef {{label: string, verdict: string, does: Handle | null, asked: Handle | null}} Demand */
/** @typedef {{label: string, calls: Handle | null, demands: Demand[]}} Family */
/**
 * @typedef {object} View
 * @property {Stand} stand
 * @property {string} kicker
 * @property {string} verdict
 * @property {string} svg
 * @property {string} paragraph
 * @property {Family[]} families
 * @property {{path: string, words: string}[]} turned
 * @property {string} [effect]
 * @property {string} [place]
 */
/** @typedef {{words: string[], meaning: string}} Entry */
/** @typedef {{name: string, quarterbacks: string[], schemes: string[], keeps_tries: boolean, cautions: string, words: Entry[]}} CaseAbout */
/** @typedef {{words: string, gain: string, changes: Change[]}} Lever */
/** @typedef {{name: string, changes: Change[], cells?: string[], fault?: string}} TryRow */
/** @typedef {{heads: string[] | null, tries: TryRow[]}} TryTable */
/**
 * @typedef {object} Snaps cells are the program's words
 * @property {string} number
 * @property {string} head
 * @property {string} way
 * @property {string} left_out
 * @property {string} more
 * @property {string} rows_head
 * @property {string[]} heads
 * @property {string[][]} rows
 * @property {string[][]} up
 * @property {string[][]} down
 * @property {{number: string, label: string}[]} numbers
 * @property {{films: {name: string, target: string, fault: string}[], spans: {film: number, start: number, end: number, words: string}[]}} play
 */
/** @typedef {{file: string, date: string, about: string, since: string, verdicts: {said: string, came?: string}[]}} Kept */

export class Refusal extends Error {}

/** The token came behind the # of the address; a page that is loaded again finds it where it was put. */
function takeToken() {
  const given = location.hash.slice(1);
  if (given) {
    sessionStorage.setItem("token", given);
    history.replaceState(null, "", location.pathname);
  }
  return sessionStorage.getItem("token") ?? "";
}

const token = takeToken();

/** What targets of film end with: a player sends no headers of ours. */
export function filmToken() {
  return token;
}

/**
 * @param {string} target
 * @param {object} question
 * @returns {Promise<any>}
 */
export async function ask(target, question = {}) {
  let reply;
  try {
    reply = await fetch(target, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Callfit-Token": token },
      body: JSON.stringify(question),
    });
  } catch {
    throw new Refusal("The desk does not answer: it was ended. What was kept is in the case.");
  }
  const answer = await reply.json();
  if (reply.ok) return answer;
  throw new Refusal(
    answer.findings
      .map((/** @type {{what: string, mend: string}} */ one) => [one.what, one.mend].filter(Boolean).join("; "))
      .join(" "),
  );
}
