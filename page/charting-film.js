// The tape: played, shuttled, looped by keys. It lies where the desk reads it, and comes in ranges.

import { filmToken } from "./door.js";
import { element, made } from "./element.js";

/** @typedef {import("./charting.js").Span} Span */

/** @param {import("./charting.js").Charting} room */
export function showFilm(room) {
  const film = /** @type {HTMLVideoElement} */ (element("film"));
  const name = /** @type {HTMLSelectElement} */ (element("film-name"));
  const told = element("film-told");
  const { films, playing } = room.state;
  const { speeds, jump } = playing;
  element("film-part").hidden = films.length === 0;
  if (films.length === 0) return;

  let place = 0;
  let { frame } = playing; // measured while it plays
  /** @type {Span | null} */
  let loop = null;

  const load = (/** @type {number} */ next) => {
    if (next === place) return;
    place = next;
    name.selectedIndex = place - 1;
    told.textContent = "";
    film.src = films[place - 1].target + filmToken();
  };
  const go = (/** @type {number} */ seconds) => {
    film.currentTime = Math.max(0, Math.min(seconds, film.duration || seconds));
  };
  const speed = (/** @type {number} */ step) => {
    const now = speeds.indexOf(film.playbackRate);
    const next = speeds[Math.max(0, Math.min(speeds.length - 1, (now < 0 ? speeds.indexOf(1) : now) + step))];
    film.playbackRate = next;
  };
  const play = () => film.play().catch(() => {}); // a press too early, or no film: the error says so
  const step = (/** @type {number} */ frames) => {
    film.pause();
    go(film.currentTime + frames * frame);
  };
  /** @type {Record<string, () => void>} */
  const acts = {
    play: () => (film.paused ? play() : film.pause()),
    pause: () => film.pause(),
    shuttle_on: () => {
      if (film.paused) play();
      else speed(1);
    },
    shuttle_back: () => {
      if (film.playbackRate > 1) speed(-1);
      else go(film.currentTime - playing.shuttle_back);
    },
    back: () => go(film.currentTime - jump),
    on: () => go(film.currentTime + jump),
    slower: () => speed(-1),
    faster: () => speed(1),
    frame_back: () => step(-1),
    frame_on: () => step(1),
    loop: () => {
      const span = room.span();
      repeat(loop || span?.film !== place ? null : span);
      if (!loop) return;
      go(loop.start);
      play();
    },
  };
  const repeat = (/** @type {Span | null} */ span) => {
    loop = span;
    told.textContent = loop ? "The snap is played again and again" : "";
  };
  /** To where a stretch begins, whatever film it is on. */
  const show = (/** @type {Span} */ span, plays = false) => {
    load(span.film);
    repeat(plays ? span : null);
    const begin = () => {
      go(span.start);
      if (plays) play();
    };
    if (film.readyState > 0) begin();
    else film.addEventListener("loadedmetadata", begin, { once: true });
  };
  room.film = {
    act: (command) => acts[command]?.(),
    show,
    rest: () => {
      film.pause();
      repeat(null);
    },
    now: () => ({ film: place, at: film.currentTime || 0, playing: !film.paused && !film.ended }),
  };

  name.replaceChildren(...films.map((one) => made("option", one.name)));
  name.addEventListener("change", () => load(name.selectedIndex + 1));
  film.addEventListener("error", () => (told.textContent = films[place - 1].fault));
  film.addEventListener("timeupdate", () => {
    if (loop && film.currentTime >= loop.end) go(loop.start);
  });
  measureFrames(film, (seconds) => (frame = seconds));
  let shown = room.state;
  room.addEventListener("state", () => {
    const span = room.state.film;
    if (room.state === shown || !span) return;
    shown = room.state;
    show(span);
  });
  load(1);
}

/**
 * How long a frame lasts, from those that are shown one after the other.
 * @param {HTMLVideoElement} film
 * @param {(seconds: number) => void} tell
 */
function measureFrames(film, tell) {
  if (!("requestVideoFrameCallback" in film)) return;
  let last = -1;
  let least = Infinity;
  const see = (/** @type {number} */ _, /** @type {VideoFrameCallbackMetadata} */ frame) => {
    const apart = frame.mediaTime - last;
    last = frame.mediaTime;
    if (apart > 1 / 125 && apart < least && apart < 1 / 10) tell((least = apart));
    film.requestVideoFrameCallback(see);
  };
  film.requestVideoFrameCallback(see);
}
