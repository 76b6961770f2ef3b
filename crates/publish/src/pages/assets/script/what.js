// The fruit class of a handful of measured fruits: crate `identity`, file `unknown::shares`, done again step by step, so
// that a page without a program behind it gives the very same shares. `rule` holds the guide's ways and borders, the
// house's spread, and the chances; see docs/web-pages.md.
"use strict";
(() => {
  // What a tomato usually is, on natural logarithms; sources stand in crate `identity`, file `fruit_class::usual`.
  const WEIGHT = { mean: 3.912, variance: 1.69 };
  const SHAPE = { mean: 0.0, variance: 0.109 };
  const FULLNESS = { mean: 0.0, variance: 0.0064 };
  const NECK = { mean: -0.1625, variance: 0.0225 };
  const LOBES = { mean: 0.7, variance: 0.36 };
  const LOG_64_G = 4.1589;
  const LOCULES = { at: LOG_64_G, is: 1.7228, slope: 0.3, variance: 0.09 };
  const DRY_MATTER = { at: LOG_64_G, is: 1.778, slope: -0.212, variance: 0.032 };
  const SOLUBLE_SOLIDS = { at: LOG_64_G, is: 1.509, slope: -0.121, variance: 0.025 };
  const DRY_MATTER_BESIDE = { at: 0.0, is: 0.36, slope: 1.0, variance: 0.01 };
  const NECK_OF_AN_EGG = -0.1438;
  const NECK_OF_AN_EGG_SD = 0.04;
  const NECK_OF_A_PEAR = -0.51;
  const NECKED_BELOW = -1.175;
  const NECKED_FROM_SHAPE = 0.0953;
  // The ellipsoid, from crate `identity`, file `ellipsoid`.
  const LOG_DENSITY = -7.496515954236816;
  const LOG_SD = 0.05;
  const STEPS = 65536;

  const logWeight = (length, width) => LOG_DENSITY + 2.0 * width + length;
  const inSteps = (log) => Math.sign(log) * Math.round(Math.min(Math.abs(log), 11) * STEPS);
  const log = (value) => (value > 0 ? Math.log(value) : null);

  /** The mean of values weighed by one over their variances, and its own variance: in the program's very steps, so that
   *  not even the last figure differs. */
  function weighed(values) {
    let [whole, mean] = [0.0, 0.0];
    for (const [value, variance] of values) {
      whole += 1.0 / variance;
      mean += (value - mean) / (variance * whole);
    }
    return [mean, 1.0 / whole];
  }

  /** The mean of a variety's plants of one season, each `{ fruits, mean }`, and the square of its standard error. */
  function varietyMean(plants, [season, plant, fruit]) {
    const [ofSeason, variance] = weighed(plants.map((own) => [own.mean, plant + fruit / own.fruits]));
    const [mean, whole] = weighed([[ofSeason, season + variance]]);
    return { mean, variance: Math.sqrt(whole) ** 2 };
  }

  /** What one fruit tells of each trait, in logarithms. `sized` and `implied` are worked out from other measures. */
  function traits(fruit) {
    const [weight, length, width, neck] = [fruit.weight, fruit.length, fruit.width, fruit.neck].map((value) => log(value ?? 0));
    const both = length !== null && width !== null;
    return {
      weight, length, width,
      sized: weight === null && both ? logWeight(length, width) : null,
      shape: both ? length - width : null,
      implied: both || weight === null ? null : impliedShape(weight, length, width),
      fullness: weight !== null && both ? weight - logWeight(length, width) : null,
      neck: neck !== null && width !== null ? neck - width : null,
      locules: log(fruit.locules ?? 0),
      lobes: fruit.lobes === undefined || fruit.lobes === null ? null : Math.log1p(fruit.lobes),
      solids: log(fruit.solids ?? 0),
      dry: log(fruit.dry ?? 0),
    };
  }

  function impliedShape(weight, length, width) {
    if (width !== null) return weight - LOG_DENSITY - 3.0 * width;
    return length === null ? null : (3.0 * length + LOG_DENSITY - weight) / 2.0;
  }

  /** What the fruits tell of one line of evidence: plant by plant, with mean and variance; `null` where nothing. */
  function line(told, spread, of, or) {
    const plants = new Map();
    let [measured, workedOut] = [0, 0];
    for (const { plant, own } of told) {
      const value = own[of] ?? (or ? own[or] : null);
      if (value === null) continue;
      if (own[of] === null) workedOut += 1;
      else measured += 1;
      const sums = plants.get(plant) ?? { fruits: 0, steps: 0 };
      plants.set(plant, { fruits: sums.fruits + 1, steps: sums.steps + inSteps(value) });
    }
    if (plants.size === 0) return null;
    const inOrder = [...plants].sort(([one], [other]) => one - other);
    const means = inOrder.map(([, { fruits, steps }]) => ({ fruits, mean: steps / STEPS / fruits }));
    const { mean, variance } = varietyMean(means, spread);
    return { plants: means, spread, mean, variance: variance + ((workedOut / (measured + workedOut)) * LOG_SD) ** 2 };
  }

  /** What was seen of each line of evidence by all fruits together. */
  function seen(fruits, spread) {
    const told = fruits.map((fruit) => ({ plant: fruit.plant ?? 0, own: traits(fruit) }));
    const count = (of) => told.filter(({ own }) => own[of] !== null).length;
    const weighedOrSized = count("weight") + count("sized");
    let sizeBy = "weight";
    if (weighedOrSized === 0 && 0 < count("width") && count("length") <= count("width")) sizeBy = "width";
    else if (weighedOrSized === 0 && 0 < count("length")) sizeBy = "length";
    const alone = (of) => line(told, spread[of], of);
    return {
      sizeBy,
      size: sizeBy === "weight" ? line(told, spread.weight, "weight", "sized") : alone(sizeBy),
      shape: line(told, spread.shape, "shape", "implied"),
      fullness: alone("fullness"), neck: alone("neck"), locules: alone("locules"), lobes: alone("lobes"),
      solids: alone("solids"), dry: alone("dry"),
    };
  }

  /** A normal and an independent observation together. */
  function steadied(usual, own) {
    if (!own) return usual;
    const trust = usual.variance / (usual.variance + own.variance);
    return {
      mean: usual.mean + trust * (own.mean - usual.mean),
      variance: (usual.variance * own.variance) / (usual.variance + own.variance),
    };
  }

  function ready({ mean, variance }) {
    const sd = Math.sqrt(variance);
    return (chance) => mean + sd * chance;
  }

  function beside(usual, own) {
    const trust = own ? usual.variance / (usual.variance + own.variance) : 0.0;
    const sd = Math.sqrt(own ? trust * own.variance : usual.variance);
    const mean = own ? own.mean : 0.0;
    return (other, chance) => {
      const expected = usual.is + usual.slope * (other - usual.at);
      return expected + trust * (mean - expected) + sd * chance;
    };
  }

  /** Makes one possible variety out of one row of chances. */
  function posterior(own) {
    const isSteadied = own.sizeBy === "weight";
    const size = ready(isSteadied ? steadied(WEIGHT, own.size) : own.size);
    const shape = ready(steadied(SHAPE, own.shape));
    const fullness = ready(steadied(FULLNESS, own.fullness));
    const neck = own.neck ? ready(steadied(NECK, own.neck)) : null;
    const lobes = ready(steadied(LOBES, own.lobes));
    const locules = beside(LOCULES, own.locules);
    const solids = beside(SOLUBLE_SOLIDS, own.solids);
    const dry = beside(own.solids ? DRY_MATTER_BESIDE : DRY_MATTER, own.dry);
    return (row) => {
      const [s, f, z] = [shape(row[1]), fullness(row[2]), size(row[0])];
      let weight = z;
      if (own.sizeBy === "width") weight = logWeight(z + s, z) + f;
      if (own.sizeBy === "length") weight = logWeight(z, z - s) + f;
      const width = (weight - f - s - LOG_DENSITY) / 3.0;
      const n = neck ? neck(row[3]) : unmeasuredNeck(row[3], s);
      const drySolids = solids(weight, row[6]);
      return [weight, width, width + s, s, n, f, locules(weight, row[4]), lobes(row[5]),
        dry(own.solids ? drySolids : weight, row[7]), drySolids];
    };
  }

  function unmeasuredNeck(chance, shape) {
    const isNecked = chance < NECKED_BELOW && NECKED_FROM_SHAPE <= shape;
    return isNecked ? NECK_OF_A_PEAR : NECK_OF_AN_EGG + NECK_OF_AN_EGG_SD * chance;
  }

  /** How many rows each class takes of the possible varieties that `own` leaves. */
  function counts(own, rule, rows) {
    const measures = posterior(own);
    const taken = rule.classes.map(() => 0);
    for (const row of rows) {
      const moved = measures(row).map((value, measure) => value - rule.softness[measure] * row[8 + measure]);
      const way = rule.ways.find(({ bands }) => bands.every(([measure, from, below]) =>
        (from === null || from <= moved[measure]) && (below === null || moved[measure] < below)));
      if (way) taken[way.into] += 1;
    }
    return taken;
  }

  /** How likely each class is: `shares` in the guide's order, `between` what no class takes. `null` where neither weight,
   *  length nor width of any fruit was measured. A fruit names its measures in grams, millimetres, counts and per cent,
   *  and may name its `plant` by a number. */
  function classShares(fruits, rule) {
    const own = seen(fruits, rule.spread);
    if (!own.size) return null;
    const rows = rule.chances.length;
    const taken = counts(own, rule, rule.chances);
    const whole = taken.reduce((sum, count) => sum + count, 0);
    return { shares: taken.map((count) => count / rows), between: (rows - whole) / rows };
  }

  /** The chances as they are sent: each column holds the same numbers in an order of its own. */
  function chances({ quantiles, order }) {
    return order.map((row) => row.map((at) => quantiles[at]));
  }

  Object.assign((globalThis.locule ??= {}), {
    classShares, chances, seen, counts, posterior, varietyMean, steadied, logWeight,
  });
})();
