// Elements by id and by name. Whatever comes from a chart or a case becomes text, never markup.

/**
 * @template {HTMLElement} [T=HTMLElement]
 * @param {string} id
 * @returns {T}
 */
export function element(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error("the page has no " + id);
  return /** @type {T} */ (found);
}

/**
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} name
 * @param {string} [text]
 * @returns {HTMLElementTagNameMap[T]}
 */
export function made(name, text = "") {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
}

/**
 * @param {string} text
 * @param {() => void} press
 */
export function button(text, press) {
  const one = made("button", text);
  one.type = "button";
  one.addEventListener("click", press);
  return one;
}

/**
 * @param {string[]} heads
 * @param {Node[][]} rows the first cell of a row heads it
 * @param {string} caption
 */
export function table(heads, rows, caption) {
  const whole = made("table");
  whole.append(made("caption", caption));
  const head = whole.createTHead().insertRow();
  for (const text of heads) {
    const cell = made("th", text);
    cell.scope = "col";
    head.append(cell);
  }
  const body = whole.createTBody();
  for (const row of rows) {
    const line = body.insertRow();
    row.forEach((content, place) => {
      const cell = made(place === 0 ? "th" : "td");
      if (place === 0) cell.setAttribute("scope", "row");
      cell.append(content);
      line.append(cell);
    });
  }
  const frame = made("div");
  frame.className = "table";
  frame.tabIndex = 0;
  frame.setAttribute("role", "region");
  frame.setAttribute("aria-label", caption);
  frame.append(whole);
  return frame;
}
