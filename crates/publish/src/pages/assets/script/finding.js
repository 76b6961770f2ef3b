// The varieties that a wish asks for, and their order. Needs `reading.js`; `globalThis.locule.list` holds the data.
"use strict";
(() => {
  const { holds, AMOUNTS, CHOICES } = globalThis.locule;
  const CONTRADICTED = 1;
  const UNMEASURED = 2;

  /** The form in which words are looked for: without accents, case and dress. */
  function folded(text) {
    const plain = /^[\x00-\x7f]*$/.test(text) ? text : text.normalize("NFKD").replace(/\p{M}/gu, "");
    return plain.toLowerCase().replace(/[\s'"\u2018-\u201f/.-]+/gu, " ");
  }

  /** The rows of the data with names: done once. `sought` is made when words are first looked for. */
  function ready(data) {
    return data.rows.map((row, at) => ({
      at, name: row[0], file: row[1], also: row[2], text: row[3], class: row[4], classChance: row[5], habit: row[6],
      habitChance: row[7], colour: row[8], colourChance: row[9], contested: row[10], flags: row[11], weight: row[12],
      length: row[13], width: row[14], height: row[15], days: row[16], locules: row[17], pattern: row[18],
      use: row[19], mark: row[20], seasons: row[21], fruits: row[22], sought: null,
    }));
  }

  const bit = (place) => (place < 0 ? 0 : 1 << place);

  /** What a variety is of each kind, as bits in the order of the data's words. */
  const BITS = {
    class: (own) => bit(own.class),
    habit: (own) => bit(own.habit),
    colour: (own) => bit(own.colour),
    pattern: (own) => bit(own.pattern),
    mark: (own) => own.mark,
    use: (own) => own.use,
    grow: (own) => own.use,
    state: (own) => (own.contested ? 1 : 0) | (own.flags & CONTRADICTED ? 2 : 0) | (own.flags & UNMEASURED ? 4 : 0),
  };
  const STATES = ["contested", "contradicted", "unmeasured"];

  function hasWord(own, word) {
    own.sought ??= folded(` ${own.name} ${own.also} ${own.text}`);
    return own.sought.includes(word);
  }

  /** A wish made ready for a list: a test that says of each variety whether it fits. */
  function fitting(wish, data) {
    const names = {
      class: data.classes, habit: data.habits, colour: data.colours, pattern: data.patterns, mark: data.marks,
      use: data.uses, grow: data.uses, state: STATES,
    };
    const mask = (kind, words) => words.reduce((sum, word) => sum | bit(names[kind].indexOf(word)), 0);
    const tests = [];
    for (const kind of CHOICES) {
      const { wanted, barred } = wish[kind];
      if (wanted.length === 0 && barred.length === 0) continue;
      if (kind === "words") {
        const [all, none] = [wanted, barred].map((words) => words.map((word) => folded(word).trim()));
        tests.push((own) => all.every((word) => hasWord(own, word)) && !none.some((word) => hasWord(own, word)));
      } else if (kind === "season") {
        const any = (own, words) => words.some((word) => own.seasons.includes(Number(word)));
        tests.push((own) => (wanted.length === 0 || any(own, wanted)) && !any(own, barred));
      } else {
        const [good, bad, of] = [mask(kind, wanted), mask(kind, barred), BITS[kind]];
        tests.push((own) => (wanted.length === 0 || (of(own) & good) !== 0) && (of(own) & bad) === 0);
      }
    }
    for (const kind of AMOUNTS) {
      const amounts = wish[kind];
      if (amounts.length) tests.push((own) => amounts.some((amount) => holds(amount, own[kind])));
    }
    return (own) => tests.every((test) => test(own));
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

  Object.assign(globalThis.locule, { ready, fitting, sorted });
})();
