// The varieties most like an unknown tomato, over measured traits (Gower's coefficient), and why in words: crate
// `assortment`, files `likeness`, `standins` and `reasons`, done again. `alike` holds what is known of the list.
"use strict";
(() => {
  const SHARED_ENOUGH = 0.5;
  const AS_HEAVY = 1.15;
  const SAME_SHAPE = 1.1;
  const CUT_ALIKE = 1;
  const SAME_JUICE = 0.7;
  const CONTESTED_UNDER = 0.8;
  const total = (numbers) => numbers.reduce((sum, own) => sum + own, 0);

  /** Chances as they are sent, place and chance in turn, as one number a name. */
  function spelled(sparse, names) {
    const chances = Array.from({ length: names }, () => 0);
    for (let at = 0; at < sparse.length; at += 2) chances[sparse[at]] = sparse[at + 1];
    return chances;
  }

  /** What is known of the variety at a place: a number or chances by the name of each trait, `null` where nothing. */
  function profile(alike, place) {
    const numbers = alike.numbers.map((own) => [own.of, own.values[place]]);
    const names = alike.names.map((own) =>
      [own.of, own.chances[place] === null ? null : spelled(own.chances[place], own.apart.length)]);
    return Object.fromEntries([...numbers, ...names]);
  }

  /** The distance that is expected between two that are drawn from their chances; what is none of the names is far. */
  function apart(one, other, distances) {
    const named = total(one.map((share, at) => share * total(other.map((own, to) => own * distances[at][to]))));
    return Math.min(1, Math.max(0, named + 1 - Math.min(1, total(one)) * Math.min(1, total(other))));
  }

  /** From the least to the greatest of a trait, over the list and the asked one; 1 where all are the same. */
  function range(values, asked) {
    let [low, high] = [Infinity, -Infinity];
    for (const value of [...values, asked]) {
      if (value === null || value === undefined) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    return 0 < high - low && high - low < Infinity ? high - low : 1;
  }

  /** Makes a measure of how far a profile is from each variety of the list: `(place) => { distance, weight }`. */
  function distances(asked, alike) {
    const numbers = alike.numbers.filter((own) => (asked[own.of] ?? null) !== null)
      .map((own) => ({ ...own, range: range(own.values, asked[own.of]) }));
    const names = alike.names.filter((own) => (asked[own.of] ?? null) !== null);
    const known = total([...numbers, ...names].map((own) => own.weight));
    const from = (place) => {
      let [sum, weight] = [0, 0];
      const add = (own, distance) => {
        sum += own.weight * distance;
        weight += own.weight;
      };
      for (const own of numbers) {
        if (own.values[place] !== null) add(own, Math.abs(asked[own.of] - own.values[place]) / own.range);
      }
      for (const own of names) {
        const chances = own.chances[place];
        if (chances !== null) add(own, apart(asked[own.of], spelled(chances, own.apart.length), own.apart));
      }
      return { distance: weight ? sum / weight : null, weight };
    };
    return { from, known };
  }

  /** The varieties nearest to a profile, those that share little of what is known of it last: `{ place, distance }`. */
  function nearest(asked, alike, count, most) {
    const { from, known } = distances(asked, alike);
    const near = Array.from({ length: count }, (_, place) => ({ place, ...from(place) }))
      .filter((own) => own.distance !== null)
      .map((own) => ({ ...own, isLittle: own.weight < SHARED_ENOUGH * known }));
    near.sort((one, other) => one.isLittle - other.isLittle || one.distance - other.distance || one.place - other.place);
    return near.slice(0, most);
  }

  const likeliest = (chances) => chances.indexOf(Math.max(...chances));

  function named(asked, other, of, words, same) {
    if (!asked[of] || !other[of]) return null;
    const [own, theirs] = [likeliest(asked[of]), likeliest(other[of])];
    const probably = Math.min(asked[of][own], other[of][theirs]) < CONTESTED_UNDER ? "probably " : "";
    return own === theirs ? [probably + same] : [null, `${probably}${words[theirs]} where this is ${words[own]}`];
  }

  function compared(asked, other, of, tell) {
    return (asked[of] ?? null) === null || other[of] === null ? null : tell(asked[of], other[of]);
  }

  function heavy(own, theirs) {
    const times = Math.exp(theirs - own);
    if (Math.max(times, 1 / times) <= AS_HEAVY) return ["as heavy"];
    if (1.95 <= times) return [null, `${times.toFixed(1)} times as heavy`];
    return [null, 1 < times ? `${(100 * (times - 1)).toFixed(0)} % heavier` : `${(100 * (1 - times)).toFixed(0)} % lighter`];
  }

  function shaped(own, theirs) {
    const times = Math.exp(theirs - own);
    if (Math.max(times, 1 / times) <= SAME_SHAPE) return ["same shape"];
    return [null, 1 < times ? "longer for its width" : "shorter for its width"];
  }

  function cut(own, theirs) {
    const more = Math.exp(theirs) - Math.exp(own);
    return CUT_ALIKE < Math.abs(more) ? [null, `${Math.abs(more).toFixed(0)} ${0 < more ? "more" : "fewer"} seed chambers`] : null;
  }

  function juice(own, theirs) {
    const more = theirs - own;
    const way = 0 < more ? "richer" : "thinner";
    return SAME_JUICE < Math.abs(more) ? [null, `${way} juice by ${Math.abs(more).toFixed(1)} % soluble solids`] : null;
  }

  /** What a variety shares with the asked one and in what it differs, in words. */
  function reasons(asked, other, words) {
    const told = [
      compared(asked, other, "weight", heavy),
      named(asked, other, "colour", words.colours, "same colour"),
      compared(asked, other, "shape", shaped),
      named(asked, other, "habit", words.habits, "same habit"),
      compared(asked, other, "locules", cut),
      named(asked, other, "pattern", words.patterns, "same pattern"),
      compared(asked, other, "solids", juice),
    ].filter(Boolean);
    const [alike, unlike] = [0, 1].map((at) => told.map((own) => own[at]).filter(Boolean).join(", "));
    return [alike, unlike].filter(Boolean).join("; ") || "nothing that both were measured in";
  }

  Object.assign((globalThis.locule ??= {}), { profile, distances, nearest, reasons });
})();
