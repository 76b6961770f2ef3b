// Parts of a page that several scripts make. Needs `telling.js`.
"use strict";
(() => {
  function element(name, text, className) {
    const made = document.createElement(name);
    if (text !== undefined) made.textContent = text;
    if (className) made.className = className;
    return made;
  }

  /** A call: its word, how sure it is, and whether it is contested. */
  function called(word, chance, isContested) {
    if (chance === null) return [element("span", "no evidence", "silent")];
    const told = [element("span", word, "verdict"), " ", element("span", globalThis.locule.chance(chance), "chance")];
    return isContested ? [...told, " ", element("em", "contested", "mark")] : told;
  }

  /** A table in a frame of its own, so that a narrow window does not grow wider by it. */
  function framed(table, words) {
    const frame = element("div", undefined, "scrolling");
    frame.append(table);
    frame.tabIndex = 0;
    frame.setAttribute("role", "region");
    frame.setAttribute("aria-label", words);
    return frame;
  }

  Object.assign((globalThis.locule ??= {}), { element, called, framed });
})();
