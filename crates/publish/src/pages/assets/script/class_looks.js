// What one more look at the fruit would make of its class: crate `identity`, files `settle::first_look` and
// `settle::imagined_fruit`, done again with the rows of chances that the page has. Needs `what.js`.
"use strict";
(() => {
  const { seen, counts, posterior, varietyMean, steadied } = globalThis.locule;
  const SETTLED_AT = 0.95;
  const WORTH_A_LOOK = 0.005;
  const MORE_PLANTS = 4;
  const FRUITS_EACH = 5;
  const MORE_FRUITS = 9;
  const OUTCOME_EACH = 8;
  const AFTER_EACH = 4;

  /** The lines of evidence in the program's order, with the measure that each reads and those it is asked for by. */
  const LINES = [
    ["size", null, [0, 1, 2]], ["shape", 3, [3, 1, 2]], ["fullness", 5, [5]], ["neck", 4, [4]], ["locules", 6, [6]],
    ["lobes", 7, [7]], ["solids", 9, [9, 8]], ["dry", 8, [8]],
  ];
  const SIZES = { weight: 0, width: 1, length: 2 };

  const isOne = (fruits) => fruits === 1;

  /** The looks on offer, the cheapest first: what each reads, when it is open, and its words. */
  const LOOKS = [
    ["weigh", ["size"], (own) => !own.size, (n) => `Weigh ${isOne(n) ? "it" : "them"}.`],
    ["sizes", ["shape"], (own) => own.size && !own.shape,
      (n) => `Measure ${isOne(n) ? "its" : "their"} length and greatest width.`],
    ["necks", ["neck"], (own) => own.size && !own.neck,
      (n) => `Measure ${isOne(n) ? "its" : "their"} width a quarter of the way down from the stem.`],
    ["cut", ["locules"], (own) => own.size && !own.locules,
      (n) => `Cut ${isOne(n) ? "it" : "them"} across and count the locules.`],
    ["juice", ["solids"], (own) => own.size && !own.solids && !own.dry,
      (n) => `Read ${isOne(n) ? "its" : "their"} juice on a refractometer.`],
    ["fruits", null, (own) => own.size, () => `Weigh and measure ${MORE_FRUITS} more fruits of the same plant.`],
    ["plants", null, (own) => own.size,
      () => `Weigh and measure ${FRUITS_EACH} fruits of each of ${MORE_PLANTS} more plants of it.`],
  ];

  function spreadOf(line, own, rule) {
    return rule.spread[line === "size" ? own.sizeBy : line];
  }

  /** The plants of a line once a look was taken at so many fruits. */
  function after(look, line, own, fruits) {
    const plants = (own[line]?.plants ?? []).map(({ fruits: count }) => ({ fruits: count, mean: 0 }));
    if (look === "plants") {
      return [...plants, ...Array.from({ length: MORE_PLANTS }, () => ({ fruits: FRUITS_EACH, mean: 0 }))];
    }
    if (plants.length === 0) {
      const known = own.size?.plants ?? [null];
      plants.push(...known.map(() => ({ fruits: 0, mean: 0 })));
    }
    const more = look === "fruits" ? MORE_FRUITS : fruits;
    const [each, left] = [Math.floor(more / plants.length), more % plants.length];
    const grown = plants.map((plant, at) => ({ ...plant, fruits: plant.fruits + each + (at < left ? 1 : 0) }));
    return grown.filter((plant) => 0 < plant.fruits);
  }

  /** The variance of what a look adds to a line, as an observation of its own; `null` where it adds nothing. */
  function gain(look, line, own, rule, fruits) {
    const spread = spreadOf(line, own, rule);
    const then = varietyMean(after(look, line, own, fruits), spread).variance;
    if (!own[line]) return then;
    const now = varietyMean(own[line].plants, spread).variance;
    return then < now ? (then * now) / (now - then) : null;
  }

  /** The leading share, averaged over imagined outcomes of observations with these variances. */
  function expected(gains, own, rule) {
    const outcomes = rule.chances.filter((_, at) => at % OUTCOME_EACH === 0);
    const rows = rule.chances.filter((_, at) => at % AFTER_EACH === 1);
    const measures = posterior(own);
    let sum = 0;
    for (const row of outcomes) {
      const truth = measures(row);
      const known = { ...own };
      LINES.forEach(([line, measure], at) => {
        if (gains[at] === null) return;
        const value = truth[measure ?? SIZES[own.sizeBy]];
        const more = { mean: value + Math.sqrt(gains[at]) * row[8 + at], variance: gains[at] };
        known[line] = own[line] ? steadied(own[line], more) : more;
      });
      sum += leading(counts(known, rule, rows), rows.length);
    }
    return sum / outcomes.length;
  }

  function leading(taken, rows) {
    const whole = taken.reduce((sum, count) => sum + count, 0);
    return Math.max(...taken, rows - whole) / rows;
  }

  function isAsked(line, rule) {
    const [, , measures] = LINES.find(([own]) => own === line);
    return rule.ways.some(({ bands }) => bands.some(([measure]) => measures.includes(measure)));
  }

  /** Each look that was not taken yet and would lift the class, most telling first: `{ look, words, expected }`. */
  function classLooks(fruits, rule) {
    const own = seen(fruits, rule.spread);
    const now = own.size ? leading(counts(own, rule, rule.chances), rule.chances.length) : 0;
    if (SETTLED_AT <= now) return [];
    const count = Math.max(1, fruits.length);
    const unchanged = expected(LINES.map(() => null), own, rule);
    const looks = LOOKS.filter(([, , isOpen]) => isOpen(own)).flatMap(([look, reads, , words]) => {
      const lines = reads ?? LINES.map(([line]) => line).filter((line) => own[line]);
      if (!lines.some((line) => isAsked(line, rule))) return [];
      const gains = LINES.map(([line]) => (lines.includes(line) ? gain(look, line, own, rule, count) : null));
      const reached = expected(gains, own, rule);
      const lifted = own.size ? Math.min(1, now + Math.max(0, reached - unchanged)) : reached;
      return [{ look, words: words(count), expected: lifted }];
    });
    const worthIt = looks.filter((look) => now + WORTH_A_LOOK <= look.expected);
    return worthIt.sort((one, other) => other.expected - one.expected);
  }

  Object.assign(globalThis.locule, { classLooks, SETTLED_AT, WORTH_A_LOOK });
})();
