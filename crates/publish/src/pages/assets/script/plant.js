// The habit of one plant from what was answered about it: crate `identity`, file `habit::answers`, done again. `rule` holds
// what every answer says, as the program worked it out of the guide. Needs `class_looks.js`.
"use strict";
(() => {
  const { SETTLED_AT, WORTH_A_LOOK } = globalThis.locule;
  /** The row of an answer about height: whether the plant still grows is not known, or it levelled off, or it grows. */
  const ROWS = { "": 0, levels: 1, grows: 2 };

  /** Whether somebody looked at the plant closely enough to have noted a dwarf. */
  const isWalked = (answers) => Boolean(stemOf(answers) || answers.leaves);

  function stemOf({ stem, trusses }) {
    if (stem === "ended") return { of: "ended", at: trusses ?? 0 };
    return stem === "growing" && trusses ? { of: "growing", at: trusses - 1 } : null;
  }

  /** What the answers say of each cell, in logarithms; the stem's part is apart, as it goes by point. */
  function logs(answers, rule) {
    const sum = rule.cells.map(() => 0);
    const add = (row) => row.forEach((log, cell) => { sum[cell] += log; });
    for (const [name, { answers: told }] of Object.entries(rule.questions)) {
      if (!answers[name]) continue;
      const rows = told[answers[name]];
      add(rows.length === 1 ? rows[0] : rows[ROWS[answers.growth ?? ""]]);
    }
    if (isWalked(answers) && !answers.dwarf) add(rule.silence);
    return sum;
  }

  /** Belief in each point of each cell after all answers; the whole is 1. */
  function belief(answers, rule) {
    const cells = logs(answers, rule).map(Math.exp);
    const seen = stemOf(answers);
    const stem = seen && rule[seen.of][seen.at];
    const [ends, endless] = stem ?? [null, 1];
    const likelihood = rule.prior.map((points, cell) => {
      const [, isEndless] = rule.cells[cell];
      return points.map((_, point) => cells[cell] * (isEndless || !ends ? endless : ends[point]));
    });
    const each = (told) => rule.prior.flatMap((points, cell) => points.map((own, point) => told(own, cell, point)));
    const stray = each((own, cell, point) => own * likelihood[cell][point]).reduce((sum, own) => sum + own, 0);
    const after = rule.prior.map((points, cell) =>
      points.map((own, point) => own * ((1 - rule.stray) * likelihood[cell][point] + rule.stray * stray)));
    const whole = after.flat().reduce((sum, own) => sum + own, 0);
    return after.map((points) => points.map((own) => own / whole));
  }

  /** Belief in each habit. */
  function habitShares(answers, rule, habits) {
    const shares = Array.from({ length: habits }, () => 0);
    belief(answers, rule).forEach((points, cell) => {
      shares[rule.cells[cell][0]] += points.reduce((sum, own) => sum + own, 0);
    });
    return shares;
  }

  /** Whether anything was answered that speaks of the habit. */
  const isTold = (answers, rule) => Boolean(stemOf(answers)) || Object.keys(rule.questions).some((name) => answers[name]);

  /** What following the stem can show: it ended after so many trusses, or reached the season's end. */
  function stemOutcomes(rule) {
    const reach = Math.min(Math.floor(rule.reach), rule.ended.length - 1);
    const ended = Array.from({ length: reach }, (_, at) => ({ stem: "ended", trusses: at + 1 }));
    return [...ended, { stem: "growing", trusses: reach }].map((answers) => {
      const { of, at } = stemOf(answers);
      const [ends, endless] = rule[of][at];
      return { answers, chance: (cell, point) => (rule.cells[cell][1] ? endless : ends[point]) };
    });
  }

  /** What a question can be answered by, with the chance of each answer before the guide tempers it. */
  function outcomes(name, { answers, trust }) {
    return Object.entries(answers).map(([key, [row]]) =>
      ({ answers: { [name]: key }, chance: (cell) => Math.exp(row[cell] / trust) }));
  }

  /** The leading share to expect after a look: over all that it may show, each as likely as the belief has it. */
  function expected(possible, answers, rule, habits) {
    const now = belief(answers, rule);
    const chances = possible.map(() => 0);
    now.forEach((points, cell) => points.forEach((own, point) => {
      const each = possible.map(({ chance }) => chance(cell, point));
      const whole = each.reduce((sum, chance) => sum + chance, 0);
      each.forEach((chance, at) => { chances[at] += (own * chance) / whole; });
    }));
    const reached = possible.map((own) => Math.max(...habitShares({ ...answers, ...own.answers }, rule, habits)));
    return chances.reduce((sum, chance, at) => sum + chance * reached[at], 0);
  }

  /** Each look at the plant that was not taken yet and would lift the habit, most telling first. */
  function habitLooks(answers, rule, habits) {
    const now = Math.max(...habitShares(answers, rule, habits));
    if (SETTLED_AT <= now) return [];
    const { leaves, dwarf } = rule.questions;
    const on = [
      [answers.leaves, () => outcomes("leaves", leaves), "Count the leaves between its trusses."],
      [answers.dwarf, () => outcomes("dwarf", dwarf), "See whether its leaves are dark and crinkled, on a short, sturdy stem."],
      [stemOf(answers), () => stemOutcomes(rule),
        "Follow its main stem until it ends in a truss or frost comes; note the trusses."],
    ];
    const looks = on.filter(([taken]) => !taken).map(([, possible, words]) =>
      ({ words, expected: expected(possible(), answers, rule, habits) }));
    const worthIt = looks.filter((look) => now + WORTH_A_LOOK <= look.expected);
    return worthIt.sort((one, other) => other.expected - one.expected);
  }

  Object.assign(globalThis.locule, { habitShares, habitLooks, isTold });
})();
