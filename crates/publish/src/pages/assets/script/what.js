// The fruit class of one measured fruit: crate `identity`, file `unknown::share_of_one`, done again step by step, so
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
  const kept = (log) => (Math.sign(log) * Math.round(Math.min(Math.abs(log), 11) * STEPS)) / STEPS;
  const log = (value) => (value > 0 ? Math.log(value) : null);

  /** One fruit of one plant of one season as the mean of its variety: in the same steps as that of many, so that not
   *  even the last figure differs. */
  function alone(value, [season, plant, fruit], workedOut) {
    const ofPlant = plant + fruit;
    const ofSeason = season + 1.0 / (1.0 / ofPlant);
    const mean = value / (ofPlant * (1.0 / ofPlant)) / (ofSeason * (1.0 / ofSeason));
    const error = Math.sqrt(1.0 / (1.0 / ofSeason));
    return { mean, variance: error * error + workedOut };
  }

  /** What was seen of each line of evidence: a mean and a variance, or nothing. */
  function seen(fruit, spread) {
    const [w, l, b, n] = [fruit.weight, fruit.length, fruit.width, fruit.neck].map((value) => log(value ?? 0));
    const line = (mean, of, workedOut = 0.0) => (mean === null ? null : alone(kept(mean), spread[of], workedOut));
    const extra = (1.0 * LOG_SD) ** 2;
    const both = l !== null && b !== null;
    let [sizeBy, size, shape] = ["weight", null, null];
    if (w !== null) size = line(w, "weight");
    else if (both) size = line(logWeight(l, b), "weight", extra);
    else if (b !== null) [sizeBy, size] = ["width", line(b, "width")];
    else if (l !== null) [sizeBy, size] = ["length", line(l, "length")];
    if (both) shape = line(l - b, "shape");
    else if (w !== null && b !== null) shape = line(w - LOG_DENSITY - 3.0 * b, "shape", extra);
    else if (w !== null && l !== null) shape = line((3.0 * l + LOG_DENSITY - w) / 2.0, "shape", extra);
    return {
      sizeBy, size, shape,
      fullness: w !== null && both ? line(w - logWeight(l, b), "fullness") : null,
      neck: n !== null && b !== null ? line(n - b, "neck") : null,
      locules: line(log(fruit.locules ?? 0), "locules"),
      lobes: fruit.lobes === undefined || fruit.lobes === null ? null : line(Math.log1p(fruit.lobes), "lobes"),
      solids: line(log(fruit.solids ?? 0), "solids"),
      dry: line(log(fruit.dry ?? 0), "dry"),
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

  /** How likely each class is: `shares` in the guide's order, `between` what no class takes, and `ways`, how many rows
   *  each way took. `null` where neither weight, length nor width was measured. */
  function classShares(fruit, rule) {
    const own = seen(fruit, rule.spread);
    if (!own.size) return null;
    const measures = posterior(own);
    const ways = rule.ways.map(() => 0);
    const counts = rule.classes.map(() => 0);
    for (const row of rule.chances) {
      const moved = measures(row).map((value, measure) => value - rule.softness[measure] * row[8 + measure]);
      const way = rule.ways.findIndex(({ bands }) => bands.every(([measure, from, below]) =>
        (from === null || from <= moved[measure]) && (below === null || moved[measure] < below)));
      if (0 <= way) {
        ways[way] += 1;
        counts[rule.ways[way].into] += 1;
      }
    }
    const rows = rule.chances.length;
    const shares = counts.map((count) => count / rows);
    const taken = counts.reduce((sum, count) => sum + count, 0);
    return { shares, between: (rows - taken) / rows, ways };
  }

  /** The chances as they are sent: each column holds the same numbers in an order of its own. */
  function chances({ quantiles, order }) {
    return order.map((row) => row.map((at) => quantiles[at]));
  }

  Object.assign((globalThis.locule ??= {}), { classShares, chances });
})();
