// The program's picture on the screen. It writes an element a line (src/draw/svg.cpp): lines that differ
// are elements that differ, and only those are read and touched. A hand moves a few marks of five hundred.

const parser = new DOMParser();

/** @param {string} svg */
function read(svg) {
  const element = /** @type {Element} */ (parser.parseFromString(svg, "image/svg+xml").documentElement);
  return /** @type {SVGElement} */ (element);
}

/** The tags of a line: what opens and what closes in it. */
function tagsOf(/** @type {string} */ line) {
  return line.match(/<\/?[a-zA-Z]+|\/>/g) ?? [];
}

const isOpening = (/** @type {string} */ tag) => /^<[a-zA-Z]/.test(tag);

export class Drawing {
  #place;
  /** @type {string[]} */
  #lines = [];
  /** @type {SVGElement[]} the element that each line opens first; the last one's where it opens none */
  #opened = [];

  /** @param {Element} place */
  constructor(place) {
    this.#place = place;
  }

  /**
   * @param {string} svg as the program wrote it
   * @returns {SVGSVGElement}
   */
  show(svg) {
    const lines = svg.split("\n");
    if (!this.#change(lines)) this.#replace(svg, lines);
    this.#lines = lines;
    return /** @type {SVGSVGElement} */ (this.#opened[0]);
  }

  /** @param {string[]} lines whether they are the same elements, then made like them */
  #change(lines) {
    if (lines.length !== this.#lines.length || lines[0] !== this.#lines[0]) return false;
    const changed = [];
    for (let i = 0; i < lines.length; ++i) {
      if (lines[i] === this.#lines[i]) continue;
      if (tagsOf(lines[i]).join() !== tagsOf(this.#lines[i]).join()) return false;
      changed.push(i);
    }
    const isGroup = (/** @type {number} */ i) => tagsOf(lines[i]).length === 1;
    const drawn = changed.map((i) => (isGroup(i) ? lines[i] + "</g>" : lines[i]));
    const elements = read(`<svg xmlns="http://www.w3.org/2000/svg">${drawn.join("")}</svg>`).children;
    changed.forEach((line, place) => {
      if (isGroup(line)) takeAttributes(this.#opened[line], elements[place]);
      else makeLike(this.#opened[line], elements[place]);
    });
    return true;
  }

  /**
   * @param {string} svg
   * @param {string[]} lines
   */
  #replace(svg, lines) {
    const shown = document.importNode(read(svg), true);
    shown.removeAttribute("width");
    shown.removeAttribute("height");
    const elements = [shown, .../** @type {NodeListOf<SVGElement>} */ (shown.querySelectorAll("*"))];
    let next = 0;
    this.#opened = lines.map((line) => {
      const first = elements[Math.min(next, elements.length - 1)];
      next += tagsOf(line).filter(isOpening).length;
      return first;
    });
    const old = this.#place.querySelector("svg");
    if (old) old.replaceWith(shown);
    else this.#place.prepend(shown);
  }
}

/**
 * Of one and the same kind, with children of the same kinds.
 * @param {Element} shown
 * @param {Element} drawn
 */
function makeLike(shown, drawn) {
  takeAttributes(shown, drawn);
  if (drawn.childElementCount > 0)
    [...shown.children].forEach((child, place) => makeLike(child, drawn.children[place]));
  else if (shown.textContent !== drawn.textContent) shown.textContent = drawn.textContent;
}

/**
 * @param {Element} to
 * @param {Element} from
 */
function takeAttributes(to, from) {
  for (const { name, value } of from.attributes)
    if (to.getAttribute(name) !== value) to.setAttribute(name, value);
  if (to.attributes.length === from.attributes.length) return;
  for (const name of to.getAttributeNames()) if (!from.hasAttribute(name)) to.removeAttribute(name);
}
