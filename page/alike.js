// What is on the screen made like what was drawn anew. Only what differs is touched: a hand moves a few
// marks of a thousand, and the browser lays out and paints only those.

/**
 * @param {Node} shown
 * @param {Node} drawn of another document
 */
export function makeLike(shown, drawn) {
  if (shown.nodeName !== drawn.nodeName || shown.childNodes.length !== drawn.childNodes.length) {
    shown.parentNode?.replaceChild(document.importNode(drawn, true), shown);
    return;
  }
  if (shown.nodeValue !== drawn.nodeValue) shown.nodeValue = drawn.nodeValue;
  if (shown instanceof Element) takeAttributes(shown, /** @type {Element} */ (drawn));
  let next = shown.firstChild;
  for (let other = drawn.firstChild; next && other; other = other.nextSibling) {
    const child = next;
    next = next.nextSibling;
    makeLike(child, other);
  }
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
