// What the page "For your garden" answers: the varieties that keep a wish with the fewest plants, the best two together,
// and their weeks. Needs `bearing.js`.
"use strict";
(() => {
  const { locule } = globalThis;
  const TOLD = 8;
  /** Two are looked for among so many: those that do best alone, and those that bring something in most weeks. */
  const PAIRED = 10;

  const bit = (place) => (place < 0 ? 0 : 1 << place);

  /** The varieties that may be asked: they suit the purpose, are of the class, habit and colour, and their picks tell. */
  function suiting(asked, varieties, list, garden) {
    const use = asked.suits === null ? -1 : bit(list.uses.indexOf(asked.suits));
    return varieties.filter((own) => garden.bearings[own.at] !== null
      && (asked.class === null ? (own.use & use) !== 0 || asked.suits === null : own.class === asked.class)
      && (asked.habit === null || own.habit === asked.habit)
      && (asked.colour === null || own.colour === asked.colour));
  }

  /** Kept for each garden once it was unpacked. */
  function bearing(garden, at) {
    garden.unpacked ??= new Map();
    if (!garden.unpacked.has(at)) garden.unpacked.set(at, locule.unpacked(garden.bearings[at], garden.weeks.length));
    return garden.unpacked.get(at);
  }

  const yearsOf = (garden, suits) => bearing(garden, suits[0].at).length;
  const needed = (years, inTen) => Math.ceil((years * inTen) / 10);

  /** Weeks in which so many plants of a variety bring so much in enough years, by whether they do. */
  function bears(own, plants, tens, years) {
    return own[0].map((_, week) => years <= own.filter((weeks) => tens <= plants * weeks[week]).length);
  }

  /** The longest run of true in a row of weeks: `[from, to]`, or `null`. */
  function run(weeks) {
    let [best, from] = [null, null];
    weeks.forEach((is, week) => {
      if (!is) from = null;
      else from ??= week;
      if (is && (best === null || best[1] - best[0] < week - from)) best = [from, week];
    });
    return best;
  }

  const A_FEW_PLANTS = 6;

  /** The weeks that are offered where nobody said any: the longest run that a few plants of some variety keep. */
  function usualWeeks(suits, tens, inTen, garden) {
    const years = needed(yearsOf(garden, suits), inTen);
    const runs = suits.map((own) => run(bears(bearing(garden, own.at), A_FEW_PLANTS, tens, years))).filter(Boolean);
    return runs.reduce((best, own) => (best === null || best[1] - best[0] < own[1] - own[0] ? own : best), null);
  }

  /** The best varieties alone, the fewest plants first, and the best two where they take fewer. */
  function answered(suits, want, inTen, garden) {
    const years = needed(yearsOf(garden, suits), inTen);
    const alone = suits.map((own) => ({ own, plants: locule.ofOne(bearing(garden, own.at), want, years) }));
    const found = alone.filter(({ plants }) => plants !== null)
      .sort((one, other) => one.plants - other.plants || one.own.name.localeCompare(other.own.name));
    return { ones: found.slice(0, TOLD), count: found.length, two: best(suits, found, want, years, garden), years, of: yearsOf(garden, suits) };
  }

  function best(suits, found, want, years, garden) {
    const [from, to] = want.weeks;
    const weeksThatBear = (own) => bears(bearing(garden, own.at), 1, 1, years).slice(from, to + 1).filter(Boolean).length;
    const rest = suits.filter((own) => !found.some((one) => one.own === own))
      .map((own) => ({ own, weeks: weeksThatBear(own) })).sort((one, other) => other.weeks - one.weeks);
    const among = [...found.map(({ own }) => own), ...rest.map(({ own }) => own)].slice(0, PAIRED);
    let kept = null;
    among.forEach((first, at) => among.slice(at + 1).forEach((second) => {
      const plants = locule.ofTwo(bearing(garden, first.at), bearing(garden, second.at), want, years);
      if (plants !== null && (kept === null || plants[0] + plants[1] < kept.plants[0] + kept.plants[1])) {
        kept = { own: [first, second], plants };
      }
    }));
    const least = found[0]?.plants ?? Infinity;
    return kept !== null && kept.plants[0] + kept.plants[1] < least ? kept : null;
  }

  Object.assign((globalThis.locule ??= {}), { suiting, usualWeeks, answered, bearing });
})();
