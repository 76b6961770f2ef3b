// How much: numbers, units, and the words that make limits and ranges of them: crate `wording`, file `quantity`,
// done again. An amount is `{ kind, how, low, high }` in grams, millimetres, days or locules; `how` is `about`,
// `least`, `most` or `between`. Needs `tokens.js`.
"use strict";
(() => {
  const GRAMS_PER_OUNCE = 28.349523125;
  const MILLIMETRES_PER_INCH = 25.4;
  const words = (text) => text.split(" ");
  const mass = (scale) => ({ of: "mass", scale });
  const length = (scale, axis) => ({ of: "length", scale, axis });
  const days = (scale) => ({ of: "days", scale });
  const LOCULES = { of: "locules", scale: 1 };
  const INCH = length(MILLIMETRES_PER_INCH, "wide");
  const FOOT = length(12 * MILLIMETRES_PER_INCH, "tall");

  const UNITS = [
    [mass(1), words("g gram grams gr gm gms gramme grammes")],
    [mass(1000), words("kg kilo kilos kgs kilogram kilograms")],
    [mass(GRAMS_PER_OUNCE), words("oz ounce ounces ozs")],
    [mass(16 * GRAMS_PER_OUNCE), words("lb lbs pound pounds pounder pounders")],
    [length(1, "wide"), words("mm millimetre millimetres millimeter millimeters")],
    [length(10, "wide"), words("cm centimetre centimetres centimeter centimeters")],
    [length(1000, "tall"), words("m metre metres meter meters")],
    [INCH, words("in inch inches inchs")],
    [FOOT, words("ft foot feet")],
    [days(1), words("day days")],
    [days(7), words("week weeks")],
    [LOCULES, words("locule locules locular chamber chambers chambered cavity cavities cells celled")],
  ];

  const BEFORE = [
    ["under", null, words("under below lessthan smallerthan lighterthan before fewerthan")],
    ["under", "long", words("shorterthan")],
    ["under", "wide", words("narrowerthan")],
    ["most", null, words("upto atmost nomorethan notmorethan notover nooverthan max maximum within nolongerthan " +
      "nobiggerthan nolargerthan noheavierthan notabove inunder by")],
    ["over", null, words("over above morethan biggerthan largerthan heavierthan after exceeding")],
    ["over", "long", words("longerthan")],
    ["over", "wide", words("widerthan")],
    ["over", "tall", words("tallerthan")],
    ["least", null, words("atleast from min minimum notunder notlessthan nolessthan nosmallerthan notbelow")],
  ];

  const NEAR = [
    ["about", words("about around roughly approximately approx circa ca nearly some")],
    ["between", words("between")],
  ];

  const BEHIND = [
    ["most", words("orless orunder orfewer orlighter orsmaller orsooner orearlier orbelow max maximum atmost andunder " +
      "andless orshorter tops")],
    ["least", words("ormore orover orheavier orlarger orbigger orlonger orlater orabove plus andup andover andmore " +
      "andabove minimum upwards orwider andlarger andheavier")],
  ];

  const AXES = [
    ["long", words("long length inlength lengthwise")],
    ["wide", words("wide width inwidth across diameter indiameter")],
    ["tall", words("tall height inheight high intheheight")],
  ];

  const NUMBERS = words("zero one two three four five six seven eight nine ten eleven twelve");
  const BOUND_SIGNS = { "<": "under", "≤": "most", ">": "over", "≥": "least", "~": "about" };
  const LONGEST = 3;
  const MOST_LOCULES = 100;
  const SAME_WITHIN = 0.06;

  const listed = (table, word) => table.find((line) => line.at(-1).includes(word))?.[0];

  /** The longest run of words at a token that `known` knows, joined: what it is, and the token behind it. */
  function longest(tokens, at, known) {
    for (let count = LONGEST; 1 <= count; count -= 1) {
      const run = tokens.slice(at, at + count).map((token) => token.word);
      if (run.length < count || run.includes(undefined)) continue;
      const found = known(run.join(""));
      if (found !== undefined) return [found, at + count];
    }
    return null;
  }

  /** A unit at a token; a hyphen may stand before it. */
  function unit(tokens, at) {
    if (tokens[at]?.sign === "-") at += 1;
    const token = tokens[at];
    if (!token) return null;
    if (token.sign === '"') return [INCH, at + 1];
    if (token.sign === "'") return [FOOT, at + 1];
    const found = token.word && listed(UNITS, token.word);
    return found ? [found, at + 1] : null;
  }

  const unitBehindBound = (tokens, at) => unit(tokens, boundAfter(tokens, at)[1]) !== null;

  function number(tokens, at) {
    return figures(tokens, at) ?? inWords(tokens, at);
  }

  function figures(tokens, at) {
    const whole = fraction(tokens, at);
    if (!whole) return null;
    const part = tokens[whole[1]]?.number !== undefined && fraction(tokens, whole[1]);
    return part && part[0] < 1 && Number.isInteger(whole[0]) ? [whole[0] + part[0], part[1]] : whole;
  }

  function fraction(tokens, at) {
    const over = tokens[at]?.number;
    if (over === undefined) return null;
    const under = tokens[at + 1]?.sign === "/" ? tokens[at + 2]?.number : undefined;
    return 0 < under && over < under ? [over / under, at + 3] : [over, at + 1];
  }

  function inWords(tokens, at) {
    const word = tokens[at]?.word;
    if (word === undefined) return null;
    const parts = { half: 0.5, quarter: 0.25 };
    let found = 1;
    let behind = at + 1;
    if (Object.hasOwn(parts, word)) {
      found = parts[word];
    } else if (word === "a" || word === "an") {
      const next = tokens[at + 1]?.word;
      if (next === undefined) return null;
      if (Object.hasOwn(parts, next)) [found, behind] = [parts[next], at + 2];
    } else {
      found = NUMBERS.indexOf(word);
      if (found < 0) return null;
    }
    if (found < 1 && tokens[behind]?.word === "of") behind += 1;
    if (0 < found && found < 1 && ["a", "an"].includes(tokens[behind]?.word)) behind += 1;
    const counts = unit(tokens, behind) !== null || unitBehindBound(tokens, behind) ||
      tokens[behind]?.sign === "-" || tokens[behind]?.word === "to";
    return counts ? [found, behind] : null;
  }

  /** A limit before a number, the axis that it compares, and the token behind it. */
  function boundBefore(tokens, at) {
    const sign = tokens[at]?.sign;
    if (sign && Object.hasOwn(BOUND_SIGNS, sign)) return [BOUND_SIGNS[sign], null, at + 1];
    const known = (word) => {
      const line = BEFORE.find(([, , all]) => all.includes(word));
      const near = line ? undefined : listed(NEAR, word);
      return line ? [line[0], line[1]] : near && [near, null];
    };
    const found = longest(tokens, at, known);
    if (!found) return [null, null, at];
    const near = longest(tokens, found[1], (word) => listed(NEAR, word));
    return [...found[0], near ? near[1] : found[1]];
  }

  /** A limit behind a number, and the token behind it. */
  function boundAfter(tokens, at) {
    if (tokens[at]?.sign === "+") return ["least", at + 1];
    const found = longest(tokens, at, (word) => listed(BEHIND, word));
    return found && !figures(tokens, found[1]) ? found : [null, at];
  }

  /** What is named before a number: "length over 2 in", "locules 2". */
  function axisBefore(tokens, at) {
    const known = (word) => {
      if (word === "locules" || word === "chambers") return LOCULES;
      if (word === "days") return days(1);
      const axis = listed(AXES, word);
      return axis && length(1, axis);
    };
    const found = longest(tokens, at, known);
    if (!found) return [null, at];
    let behind = found[1];
    if (tokens[behind]?.sign === ":" || ["of", "is"].includes(tokens[behind]?.word)) behind += 1;
    return number(tokens, boundBefore(tokens, behind)[2]) ? [found[0], behind] : [null, at];
  }

  function joinsRange(token, bound) {
    if (!token) return false;
    if (token.sign === "-") return true;
    if (["to", "through", "till"].includes(token.word)) return !["under", "most", "over"].includes(bound);
    return (token.word === "or" && bound === null) || (token.word === "and" && bound === "between");
  }

  /** `4 oz`, `1 lb 4 oz`, `half a pound`. */
  function quantity(tokens, at, named) {
    const figure = number(tokens, at);
    if (!figure) return null;
    const own = unit(tokens, figure[1]);
    const isCount = named && (named.of === "days" || named.of === "locules");
    if (!own) return { number: figure[0], unit: isCount ? named : null, end: figure[1] };
    const more = number(tokens, own[1]);
    const small = more && unit(tokens, more[1]);
    if (small && isPart(own[0], small[0], more[0])) {
      const whole = figure[0] + (more[0] * small[0].scale) / own[0].scale;
      return { number: whole, unit: own[0], end: small[1] };
    }
    return { number: figure[0], unit: own[0], end: own[1] };
  }

  function isPart(unit, small, more) {
    return ["mass", "length"].includes(unit.of) && unit.of === small.of && more * small.scale < unit.scale;
  }

  function rangeEnd(tokens, at, bound, first, named) {
    if (!joinsRange(tokens[at], bound)) return null;
    const second = quantity(tokens, at + 1, named);
    if (!second) return null;
    const whole = !first || second.unit;
    const alike = first && second.unit ? first.of === second.unit.of
      : first || second.unit ? true : unitBehindBound(tokens, second.end);
    return whole && alike ? second : null;
  }

  function oneAmount(tokens, at) {
    const [named, afterName] = axisBefore(tokens, at);
    const [before, compared, afterBound] = boundBefore(tokens, afterName);
    const first = quantity(tokens, afterBound, named);
    if (!first) return null;
    const second = rangeEnd(tokens, first.end, before, first.unit, named);
    const lowUnit = first.unit ?? second?.unit ?? null;
    const highUnit = second ? second.unit : first.unit;
    const [after, behindBound] = boundAfter(tokens, second ? second.end : first.end);
    let [low, high, end] = [lowUnit, highUnit ?? lowUnit, behindBound];
    if (!low) {
      const own = unit(tokens, behindBound);
      if (!own) return null;
      [low, high, end] = [own[0], own[0], own[1]];
    }
    const axis = longest(tokens, end, (word) => listed(AXES, word));
    const which = (axis && axis[0]) ?? compared ?? (named?.of === "length" ? named.axis : null) ?? low.axis;
    const ends = [first.number * low.scale, second ? second.number * high.scale : null];
    const want = low.of === "locules" ? locules(ends, after ?? before) : limits(ends, after ?? before);
    const kinds = { mass: "weight", days: "days", locules: "locules" };
    const axes = { long: "length", wide: "width", tall: "height" };
    return want && { want: { kind: kinds[low.of] ?? axes[which], ...want }, end: axis ? axis[1] : end };
  }

  function limits([low, high], bound) {
    if (high !== null) return { how: "between", low: Math.min(low, high), high: Math.max(low, high) };
    if (bound === "under" || bound === "most") return { how: "most", low: null, high: low };
    if (bound === "over" || bound === "least") return { how: "least", low, high: null };
    return { how: "about", low, high: low };
  }

  function locules([low, high], bound) {
    const count = (number) => (0 <= number && number <= MOST_LOCULES ? Math.round(number) : null);
    const range = (how, from, to) => {
      const [low, high] = [from === null ? null : count(from), to === null ? null : count(to)];
      const isCounted = (from === null || low !== null) && (to === null || high !== null);
      return isCounted ? { how, low, high } : null;
    };
    if (high !== null) return range("between", Math.min(low, high), Math.max(low, high));
    if (bound === "under") return range("most", null, low - 1);
    if (bound === "most") return range("most", null, low);
    if (bound === "over") return range("least", low + 1, null);
    if (bound === "least") return range("least", low, null);
    return range("between", low, low);
  }

  /** Lower and upper end, both included; `null` where it is open. */
  function ends(amount) {
    const ABOUT = 0.15;
    return amount.how === "about" ? [amount.low * (1 - ABOUT), amount.low * (1 + ABOUT)] : [amount.low, amount.high];
  }

  /** Whether a value is such an amount. */
  function holds(amount, value) {
    const [low, high] = ends(amount);
    return value !== null && (low === null || low <= value) && (high === null || value <= high);
  }

  function otherWayRound(tokens, end, want) {
    if (!["(", "/"].includes(tokens[end]?.sign)) return null;
    const again = oneAmount(tokens, end + 1);
    if (!again || again.want.kind !== want.kind || ["days", "locules"].includes(want.kind)) return null;
    const [own, other] = [ends(want), ends(again.want)];
    const near = (one, two) => Math.abs(one - two) <= SAME_WITHIN * Math.max(Math.abs(one), Math.abs(two));
    const same = own.every((one, index) =>
      one === null ? other[index] === null : other[index] !== null && near(one, other[index]));
    return same ? again.end + (tokens[again.end]?.sign === ")" ? 1 : 0) : null;
  }

  /** Reads an amount that begins at a token: what is wanted, and the token behind it. */
  function amount(tokens, at) {
    const found = oneAmount(tokens, at);
    return found && { want: found.want, end: otherWayRound(tokens, found.end, found.want) ?? found.end };
  }

  Object.assign((globalThis.locule ??= {}), { amount, holds });
})();
