// What the tape says so far, after each drive; it is worked out while charting goes on.

import { ask } from "./door.js";
import { element } from "./element.js";

const between = 700; // milliseconds

/** @param {import("./charting.js").Charting} room */
export function showSoFar(room) {
  let drives = -1;
  let isAsking = false;
  const part = element("so-far-part");
  const look = async () => {
    isAsking = true;
    /** @type {{working: boolean, verdict?: string, next?: string, is_old?: boolean}} */
    let said;
    do {
      said = await ask("/charting/so-far");
      part.setAttribute("aria-busy", String(said.working));
      if (said.verdict !== undefined) element("so-far-verdict").textContent = said.verdict;
      if (said.next !== undefined) element("so-far-next").textContent = said.next;
      if (said.working) await new Promise((done) => setTimeout(done, between));
    } while (said.working);
    isAsking = false;
  };
  const see = () => {
    if (room.state.drives === drives || isAsking) return;
    drives = room.state.drives;
    look().then(see, () => (isAsking = false)); // a drive may have ended meanwhile
  };
  room.addEventListener("state", see);
  see();
}
