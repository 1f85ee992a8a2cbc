// Puts the desk together: one store, and a view for each thing that is shown.

import { ask } from "./door.js";
import { Store } from "./store.js";
import { showAll } from "./all.js";
import { showRooms } from "./rooms.js";
import { showPicture } from "./picture.js";
import { showSaid } from "./said.js";
import { showSaying } from "./saying.js";
import { showSnaps } from "./snaps.js";
import { showStand } from "./stand.js";
import { showTries } from "./tries.js";
import { showTrying } from "./trying.js";
import { showTurned } from "./turned.js";
import { showVerdict } from "./verdict.js";
import { showWords } from "./words.js";

const store = new Store();
showVerdict(store);

async function openPicture() {
  /** @type {import("./door.js").CaseAbout} */
  const about = await ask("/case");
  const words = showWords(about);
  showStand(store, about);
  showSaying(store, words);
  showTurned(store, words);
  showTries(store, about);
  showAll(store);
  showSaid(store);
  showSnaps(store);
  await showPicture(store);
  await showTrying(store);
  // The first move of a hand finds the quick answers ready.
  await ask("/view", { stand: store.stand, following: true });
}

try {
  await showRooms(store, openPicture);
} catch (error) {
  store.refuse(error);
}
