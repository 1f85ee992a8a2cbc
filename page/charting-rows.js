// The chart's rows around the open one, as they are on the disk.

import { element, table } from "./element.js";

/** @param {import("./charting.js").Charting} room */
export function showRows(room) {
  const head = element("rows-head");
  const place = element("rows");
  const show = () => {
    const { heads, rows } = room.state.table;
    head.textContent = room.state.count;
    const whole = table(
      heads,
      rows.map((row) => row.cells.map((text) => document.createTextNode(text))),
      "The chart around the open row",
    );
    rows.forEach((row, at) => {
      if (row.is_open) whole.querySelectorAll("tbody tr")[at].setAttribute("aria-current", "true");
    });
    place.replaceChildren(whole);
  };
  room.addEventListener("state", show);
  show();
}
