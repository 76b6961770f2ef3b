// The varieties that a wish asks for, and their order. Needs `reading.js`; `globalThis.locule.list` holds the data.
"use strict";
(() => {
  const { holds, AMOUNTS, CHOICES } = globalThis.locule;
  const FIELDS = ["name", "file", "also", "text", "class", "classChance", "habit", "habitChance", "colour",
    "colourChance", "contested", "flags", "weight", "length", "width", "height", "days", "locules", "pattern", "uses",
    "marks", "seasons", "fruits"];
  const CONTRADICTED = 1;
  const UNMEASURED = 2;

  /** The form in which words are looked for: without accents, case and dress. */
  function folded(text) {
    return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/[\s'"\u2018-\u201f/.-]+/gu, " ");
  }

  /** The data made ready: done once. */
  function ready(data) {
    const word = (words, at) => (at < 0 ? null : words[at]);
    const masked = (words, mask) => words.filter((_, bit) => mask & (1 << bit));
    return data.rows.map((row, at) => {
      const own = Object.fromEntries(FIELDS.map((field, index) => [field, row[index]]));
      const uses = masked(data.uses, own.uses);
      const states = [
        own.contested && "contested", own.flags & CONTRADICTED && "contradicted", own.flags & UNMEASURED && "unmeasured",
      ];
      return {
        ...own, at,
        words: {
          habit: [word(data.habits, own.habit)], class: [word(data.classes, own.class)],
          colour: [word(data.colours, own.colour)], pattern: [word(data.patterns, own.pattern)],
          mark: masked(data.marks, own.marks), use: uses, grow: uses, state: states.filter(Boolean),
          season: own.seasons.map(String),
        },
        sought: folded(` ${own.name} ${own.also} ${own.text}`),
      };
    });
  }

  function takes(choice, found) {
    const any = (words) => words.some((word) => found.includes(word));
    return (choice.wanted.length === 0 || any(choice.wanted)) && !any(choice.barred);
  }

  /** Every word must be found, at the beginning of a word or inside a longer one. */
  function takesWords(choice, sought) {
    const has = (word) => sought.includes(folded(word).trim());
    return choice.wanted.every(has) && !choice.barred.some(has);
  }

  function fits(variety, wish) {
    for (const kind of CHOICES) {
      const choice = wish[kind];
      if (choice.wanted.length === 0 && choice.barred.length === 0) continue;
      const does = kind === "words" ? takesWords(choice, variety.sought) : takes(choice, variety.words[kind]);
      if (!does) return false;
    }
    for (const kind of AMOUNTS) {
      const amounts = wish[kind];
      if (amounts.length && !amounts.some((amount) => holds(amount, variety[kind]))) return false;
    }
    return true;
  }

  const last = Number.MAX_SAFE_INTEGER;
  const place = (at) => (at === null || at < 0 ? last : at);
  const KEYS = {
    class: (variety) => place(variety.class),
    habit: (variety) => place(variety.habit),
    colour: (variety) => place(variety.colour),
    weight: (variety) => variety.weight ?? last,
    fruits: (variety) => -variety.fruits,
  };

  /** Puts varieties in order, those that have nothing to be sorted by last; `name` is the order that they come in. */
  function sorted(varieties, by, isTurned) {
    const turn = isTurned ? -1 : 1;
    const order = [...varieties];
    if (by === "name") return isTurned ? order.reverse() : order;
    const key = KEYS[by];
    const known = (variety) => (key(variety) === last ? 1 : 0);
    return order.sort((one, other) =>
      known(one) - known(other) || turn * (key(one) - key(other)) || one.at - other.at);
  }

  Object.assign(globalThis.locule, { ready, fits, sorted });
})();
