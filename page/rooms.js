// The rooms of the desk, one at a time: the picture, and charting beside the tape.

import { ask } from "./door.js";
import { element } from "./element.js";
import { showCharting } from "./charting.js";

/**
 * @param {import("./store.js").Store} store
 * @param {() => Promise<void>} openPicture
 */
export async function showRooms(store, openPicture) {
  /** @type {{charting: boolean, begins_with_charting: boolean}} */
  const rooms = await ask("/rooms");
  const picture = element("to-picture");
  const charting = element("to-charting");
  /** @type {import("./charting.js").Charting | null} */
  let room = null;
  let isPictureOpen = false;
  let isStale = false;

  const show = (/** @type {boolean} */ isCharting) => {
    element("picture-room").hidden = isCharting;
    element("stand").hidden = isCharting;
    element("charting-room").hidden = !isCharting;
    picture.setAttribute("aria-pressed", String(!isCharting));
    charting.setAttribute("aria-pressed", String(isCharting));
    store.forgetFault();
  };
  const toPicture = async () => {
    if (isStale) return location.reload(); // every number of the picture is of another chart now
    show(false);
    room?.leave();
    if (isPictureOpen) return;
    await openPicture();
    isPictureOpen = true;
  };
  const toCharting = async () => {
    show(true);
    room ??= await showCharting(() => (isStale = true));
    room.enter();
  };
  const act = (/** @type {() => Promise<void>} */ go) => () => go().catch((error) => store.refuse(error));

  element("rooms").hidden = !rooms.charting;
  picture.addEventListener("click", () => {
    sessionStorage.setItem("room", "picture");
    act(toPicture)();
  });
  charting.addEventListener("click", () => {
    sessionStorage.setItem("room", "charting");
    act(toCharting)();
  });
  const last = sessionStorage.getItem("room");
  const beginsWithCharting = last ? last === "charting" : rooms.begins_with_charting;
  await act(rooms.charting && beginsWithCharting ? toCharting : toPicture)();
}
