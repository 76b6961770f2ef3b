// Measures, chances and wishes in words, the house's own units first: crate `record`, file `language`, and crate
// `wording`, file `telling`, done again.
"use strict";
(() => {
  const GRAMS_PER_OUNCE = 28.349523125;
  const MILLIMETRES_PER_INCH = 25.4;

  function metricMass(grams) {
    if (grams < 1) return `${grams.toFixed(2)} g`;
    if (grams < 10) return `${grams.toFixed(1)} g`;
    return 2000 <= grams ? `${(grams / 1000).toFixed(1)} kg` : `${grams.toFixed(0)} g`;
  }

  function usMass(grams) {
    const ounces = grams / GRAMS_PER_OUNCE;
    if (ounces < 0.1) return `${ounces.toFixed(3)} oz`;
    if (ounces < 1) return `${ounces.toFixed(2)} oz`;
    return 32 <= ounces ? `${(ounces / 16).toFixed(1)} lb` : `${ounces.toFixed(1)} oz`;
  }

  function metricLength(millimetres) {
    return 1000 <= millimetres ? `${(millimetres / 1000).toFixed(2)} m` : `${millimetres.toFixed(0)} mm`;
  }

  function usLength(millimetres) {
    const inches = millimetres / MILLIMETRES_PER_INCH;
    return 36 <= inches ? `${(inches / 12).toFixed(1)} ft` : `${inches.toFixed(1)} in`;
  }

  /** In the house's own units only. */
  const massBriefly = (grams, units) => (units === "us" ? usMass(grams) : metricMass(grams));

  const WORDS_OF_UNITS = {
    g: "grams", kg: "kilograms", oz: "ounces", lb: "pounds", mm: "millimetres", m: "metres", in: "inches", ft: "feet",
  };
  const ONE = { grams: "gram", millimetres: "millimetre" };

  /** A measure with its unit written as the house wishes. */
  function written(measure) {
    if (globalThis.locule.list?.unitsWritten !== "words") return measure;
    const [number, sign] = measure.split(" ");
    const word = WORDS_OF_UNITS[sign];
    return `${number} ${number === "1" ? (ONE[word] ?? word) : word}`;
  }

  const inOrder = (us, metric, units) => (units === "us" ? [us, metric] : [metric, us]);
  function both(us, metric, units) {
    const [first, other] = inOrder(us, metric, units).map(written);
    return `${first} (${other})`;
  }

  const mass = (grams, units) => both(usMass(grams), metricMass(grams), units);
  const length = (millimetres, units) => both(usLength(millimetres), metricLength(millimetres), units);

  /** A probability in hundredths: `62 in 100`; never quite 0 or 100. */
  function chance(hundredths) {
    if (100 <= hundredths) return "over 99 in 100";
    return hundredths < 1 ? "under 1 in 100" : `${hundredths} in 100`;
  }

  const counted = (count, one, many) => (count === 1 ? `1 ${one}` : `${count.toLocaleString("en")} ${many}`);

  function amountWords({ how, low, high }, word) {
    if (how === "about") return `about ${word(low)}`;
    if (how === "least") return `at least ${word(low)}`;
    return how === "most" ? `at most ${word(high)}` : `${word(low)} to ${word(high)}`;
  }

  const days = (count) => `${count} days`;

  const WORDS = {
    habit: (want) => `habit ${want.word}`,
    class: (want) => `fruit class ${want.word}`,
    colour: (want) => `colour ${want.word}`,
    pattern: (want) => `pattern ${want.word}`,
    mark: (want) => `shape ${want.word}`,
    use: (want) => `good for ${want.word}`,
    grow: (want) => `good for ${want.word}`,
    state: (want) => want.word,
    season: (want) => `grown in ${want.word}`,
    words: (want) => `the words "${want.word}"`,
    weight: (want, units) => amountWords(want, (grams) => mass(grams, units)),
    length: (want, units) => `${amountWords(want, (long) => length(long, units))} long`,
    width: (want, units) => `${amountWords(want, (wide) => length(wide, units))} wide`,
    height: (want, units) => `plants ${amountWords(want, (tall) => length(tall, units))} tall`,
    days: (want) => `${amountWords(want, days)} to the first ripe fruit`,
    locules: (want) => (want.how === "between" && want.low === want.high
      ? counted(want.low, "locule", "locules")
      : want.how === "between" ? `${want.low} to ${want.high} locules`
        : amountWords(want, (count) => counted(count, "locule", "locules"))),
    earliness: (want, units, limits) => `${want.word}: ${WORDS.days(limits.days[want.word])}`,
    size: (want, units, limits) => `${want.word}: ${WORDS.weight(limits.sizes[want.word], units)}, unless a weight or ` +
      "a fruit class is asked for too",
  };

  /** What a piece of a text was read as. */
  function partWords(part, units, limits) {
    const words = part.wants.map((want) => WORDS[want.kind](want, units, limits)).join(" or ");
    return part.isBarred ? `not ${words}` : words;
  }

  Object.assign((globalThis.locule ??= {}), { mass, massBriefly, length, chance, counted, partWords });
})();
