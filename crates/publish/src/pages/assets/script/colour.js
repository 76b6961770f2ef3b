// The colour of one fruit from the words that were written of it: crate `identity`, file `colour::answers`, done again.
// Needs `class_looks.js`.
"use strict";
(() => {
  const { SETTLED_AT, WORTH_A_LOOK } = globalThis.locule;
  const total = (numbers) => numbers.reduce((sum, own) => sum + own, 0);

  /** How likely a word is under each truth; 1 where none was written. */
  const under = (words, written) => words.map((chances) => (written === undefined ? 1 : chances[written]));

  /** Belief after one reading, which may be of a stray. */
  function after(prior, likelihood, stray) {
    const mean = total(prior.map((own, at) => own * likelihood[at]));
    const moved = prior.map((own, at) => own * ((1 - stray) * likelihood[at] + stray * mean));
    const whole = total(moved);
    return moved.map((own) => own / whole);
  }

  /** Belief in each colour outside, flesh and skin together: by colour outside, then by flesh and skin. */
  function triples(written, rule) {
    const [outside, flesh] = [under(rule.colourWords, written.outside), under(rule.colourWords, written.flesh)];
    const skin = under(rule.skinWords, written.skin);
    const likelihood = outside.flatMap((own) => flesh.flatMap((below) => skin.map((peeled) => own * below * peeled)));
    return after(rule.prior.flat(), likelihood, rule.stray);
  }

  /** Sums the triples by one of their parts. */
  function by(part, belief, rule) {
    const [colours, skins] = [rule.colours.length, rule.skins.length];
    const place = {
      outside: (at) => Math.floor(at / (colours * skins)),
      flesh: (at) => Math.floor(at / skins) % colours,
      skin: (at) => at % skins,
    }[part];
    const shares = Array.from({ length: part === "skin" ? skins : colours }, () => 0);
    belief.forEach((own, at) => { shares[place(at)] += own; });
    return shares;
  }

  /** Belief in each colour outside and in each pattern; `written` has the places of the words for `outside`, `flesh`,
   *  `skin` and `pattern`. */
  function colourShares(written, rule) {
    return {
      outside: by("outside", triples(written, rule), rule),
      pattern: after(rule.patternPrior, under(rule.patternWords, written.pattern), rule.stray),
    };
  }

  const LOOKS = [
    ["outside", "Note its colour outside."],
    ["skin", "Peel it and hold the skin to the light: clear or yellow?"],
    ["flesh", "Cut it and note the colour of the flesh."],
  ];

  /** Each look that was not taken yet and would lift the colour outside, most telling first. */
  function colourLooks(written, rule) {
    const now = Math.max(...colourShares(written, rule).outside);
    if (SETTLED_AT <= now) return [];
    const belief = triples(written, rule);
    const looks = LOOKS.filter(([part]) => written[part] === undefined).map(([part, words]) => {
      const chances = part === "skin" ? rule.skinWords : rule.colourWords;
      const truths = by(part, belief, rule);
      const expected = total(chances.map((_, word) =>
        total(truths.map((share, truth) => share * chances[truth][word])) *
        Math.max(...colourShares({ ...written, [part]: word }, rule).outside)));
      return { words, expected };
    });
    const worthIt = looks.filter((look) => now + WORTH_A_LOOK <= look.expected);
    return worthIt.sort((one, other) => other.expected - one.expected);
  }

  Object.assign(globalThis.locule, { colourShares, colourLooks });
})();
