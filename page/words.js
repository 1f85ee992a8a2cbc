// Every term shows what it means when it is pressed.

import { element, made } from "./element.js";

/**
 * @param {import("./door.js").CaseAbout} about
 * @returns {(text: string) => Node[]} a text with its terms ready to press, each once
 */
export function showWords(about) {
  const meanings = new Map();
  for (const entry of about.words) for (const word of entry.words) meanings.set(word.toLowerCase(), entry);
  element("words").replaceChildren(
    ...about.words.flatMap((entry) => [made("dt", entry.words.join(", ")), made("dd", entry.meaning)]),
  );
  const show = meaningPart();
  const terms = [...meanings.keys()].sort((a, b) => b.length - a.length).map(escaped);
  return (text) => {
    const seen = new Set();
    const find = new RegExp("(?<![\\p{L}\\p{N}])(" + terms.join("|") + ")(?![\\p{L}\\p{N}])", "giu");
    return text.split(find).map((piece, place) => {
      const entry = place % 2 === 1 ? meanings.get(piece.toLowerCase()) : undefined;
      if (!entry || seen.has(entry)) return document.createTextNode(piece);
      seen.add(entry);
      const term = made("button", piece);
      term.type = "button";
      term.className = "term";
      term.addEventListener("click", () => show(entry, term));
      return term;
    });
  };
}

function escaped(/** @type {string} */ word) {
  return word.replace(/[.*+?^${}()|[\]\\²]/g, "\\$&").replace("\\²", "²");
}

/** @returns {(entry: import("./door.js").Entry, from: HTMLElement) => void} */
function meaningPart() {
  const part = element("meaning");
  /** @type {HTMLElement | null} */
  let from = null;
  const close = () => {
    part.hidden = true;
    if (from?.isConnected) from.focus();
  };
  element("meaning-close").addEventListener("click", close);
  part.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    close();
  });
  return (entry, opener) => {
    from = opener;
    element("meaning-word").textContent = entry.words.join(", ");
    element("meaning-text").textContent = entry.meaning;
    part.hidden = false;
    part.focus();
  };
}
