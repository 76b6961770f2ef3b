// The page "What is it?": reads what was measured in whatever unit, and tells the class with how sure, the guide's
// limits for it, and the nearest varieties on the list.
"use strict";
(() => {
  const { locule } = globalThis;
  const { list, rule } = locule;
  const form = document.getElementById("measures");
  const answer = document.getElementById("answer");
  const SVG = "http://www.w3.org/2000/svg";
  const TOLD_FROM = 0.01;
  const NEAREST = 6;
  const WIDEST_NECK = 1.1;
  const FURTHEST_FROM_SIZE = 3.0;
  const OWN_UNITS = list.units === "us" ? { weight: "oz", length: "in" } : { weight: "g", length: "mm" };
  rule.chances = locule.chances(rule);

  function element(name, text, className) {
    const made = document.createElement(name);
    if (text !== undefined) made.textContent = text;
    if (className) made.className = className;
    return made;
  }

  /** What cannot be read or cannot be, with what to do. */
  class Slip extends Error {}

  const input = (name) => document.getElementById(name);

  /** A mass in grams or a length in millimetres, in any unit; a bare number is in the house's own. */
  function measure(name, kind) {
    const said = input(name).value.trim();
    if (!said) return null;
    const own = /^[\d.,½¼¾⅓⅔ /]+$/.test(said) ? `${said} ${OWN_UNITS[kind]}` : said;
    const tokens = locule.tokens(own);
    const found = locule.amount(tokens, 0);
    const isMass = found?.want.kind === "weight";
    const isOne = found && found.end === tokens.length && found.want.how === "about" && isMass === (kind === "weight") &&
      !["days", "locules"].includes(found.want.kind);
    if (!isOne) throw new Slip(`"${said}" cannot be read; write one number and one unit, such as ${input(name).dataset.such}`);
    if (!(0 < found.want.low)) throw new Slip(`"${said}" is nothing; leave out what was not measured`);
    return found.want.low;
  }

  function plain(name, least, most, words) {
    const said = input(name).value.trim().replace(/\s*(%|per cent|percent|°?\s*brix)$/i, "").replace(",", ".");
    if (!said) return null;
    const value = Number(said);
    if (!(least <= value && value <= most)) throw new Slip(`"${said}" is no ${words}; write a number from ${least} to ${most}`);
    return value;
  }

  function fruit() {
    const own = {
      weight: measure("weight", "weight"), length: measure("length", "length"), width: measure("width", "length"),
      neck: measure("neck", "length"), locules: plain("locules", 1, 100, "count of locules"),
      solids: plain("solids", 0.5, 30, "percentage"), dry: plain("dry", 0.5, 30, "percentage"),
    };
    if (own.locules !== null && !Number.isInteger(own.locules)) throw new Slip("locules are counted; write a whole number");
    if (own.neck !== null && own.width === null) throw new Slip("the neck is told by the width; measure both");
    if (own.neck !== null && WIDEST_NECK * own.width < own.neck) {
      throw new Slip("the neck is wider than the fruit; measure it a quarter of the way down, and the width where it is greatest");
    }
    if (own.solids !== null && own.dry !== null && own.dry < own.solids) {
      throw new Slip("dry matter holds the soluble solids and more; look at both");
    }
    if (own.weight !== null && own.length !== null && own.width !== null) {
      const bySize = -7.496515954236816 + 2 * Math.log(own.width) + Math.log(own.length);
      if (Math.log(FURTHEST_FROM_SIZE) < Math.abs(Math.log(own.weight) - bySize)) {
        throw new Slip(`a fruit of this length and width weighs about ${locule.mass(Math.exp(bySize), list.units)}; look at the units`);
      }
    }
    return own;
  }

  function ink(share) {
    const svg = document.createElementNS(SVG, "svg");
    const line = document.createElementNS(SVG, "rect");
    for (const [name, value] of [["width", 160], ["height", 8], ["viewBox", "0 0 160 8"], ["aria-hidden", "true"]]) {
      svg.setAttribute(name, value);
    }
    for (const [name, value] of [["y", 2.5], ["width", Math.max(1, 160 * share)], ["height", 3], ["fill", "#23211d"]]) {
      line.setAttribute(name, value);
    }
    svg.append(line);
    return svg;
  }

  const hundredths = (share) => locule.chance(Math.round(share * 100));

  /** The words of the list for how sure a call is. */
  function likelihood(share) {
    if (0.95 <= share) return "Almost surely";
    if (0.8 <= share) return "Very probably";
    return 0.5 <= share ? "Probably" : "Perhaps";
  }

  function verdicts({ shares, between }) {
    const all = shares.map((share, at) => ({ share, own: rule.classes[at] }));
    all.push({ share: between, own: { name: "between classes", limits: [] } });
    return all.filter(({ share }) => TOLD_FROM <= share).sort((one, other) => other.share - one.share);
  }

  function told({ share, own }) {
    const line = element("li");
    const name = own.page ? element("a", own.name) : element("span", own.name);
    if (own.page) name.href = own.page;
    line.append(name, " ", element("span", hundredths(share), "chance"), ink(share));
    return line;
  }

  function limits({ own }) {
    const part = element("div");
    part.append(element("p", `The guide's limits (${own.name}):`, "basis"));
    const ways = element("ul");
    ways.append(...own.limits.map((words) => element("li", words)));
    part.append(ways);
    return part;
  }

  /** How far a variety lies from the fruit, over what is known of both: mean distance of the logarithms. */
  function distance(own, variety) {
    const far = ["weight", "length", "width", "locules"]
      .filter((measure) => own[measure] !== null && variety[measure] !== null)
      .map((measure) => Math.abs(Math.log(own[measure] / variety[measure])) * (measure === "locules" ? 0.5 : 1));
    const asked = ["weight", "length", "width", "locules"].filter((measure) => own[measure] !== null).length;
    return asked <= 2 * far.length && far.length ? far.reduce((sum, one) => sum + one, 0) / far.length : Infinity;
  }

  function nearest(own) {
    state.varieties ??= locule.ready(list);
    const all = state.varieties.map((variety) => ({ variety, far: distance(own, variety) }));
    return all.filter(({ far }) => far < Infinity).sort((one, other) => one.far - other.far).slice(0, NEAREST);
  }

  const state = {};

  function near({ variety }) {
    const line = element("li");
    const link = element("a");
    link.href = `varieties/${variety.file}.html`;
    link.append(element("bdi", variety.name));
    const facts = [
      variety.class < 0 ? "between classes" : list.classes[variety.class],
      variety.weight === null ? null : locule.mass(variety.weight, list.units),
      variety.colour < 0 ? null : list.colours[variety.colour],
    ];
    line.append(link, `: ${facts.filter(Boolean).join(", ")}`);
    return line;
  }

  function reckon() {
    const own = fruit();
    const shares = locule.classShares(own, rule);
    if (!shares) throw new Slip("weigh the fruit, or measure its length or width, and write it above");
    const likely = verdicts(shares);
    const [first, second] = likely;
    const contested = first.share < 0.8;
    const title = element("h2", `${likelihood(first.share)}: ${first.own.name} (${hundredths(first.share)})`);
    const classes = element("ul", undefined, "shares");
    classes.append(...likely.map(told));
    const parts = [title, classes];
    if (first.own.limits.length) parts.push(limits(first));
    if (contested && second?.own.limits.length) parts.push(limits(second));
    parts.push(element("p", "One fruit stands for its variety here. Fruits, plants and seasons of one variety differ, and that is " +
      "in the numbers; several fruits of several plants would tell more.", "basis"));
    const close = nearest(own);
    if (close.length) {
      const names = element("ul");
      names.append(...close.map(near));
      parts.push(element("h3", "The nearest on the list, by size and shape"), names);
    }
    return parts;
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    try {
      answer.replaceChildren(...reckon());
    } catch (fault) {
      if (!(fault instanceof Slip)) throw fault;
      const words = element("p", `${fault.message[0].toUpperCase()}${fault.message.slice(1)}.`, "slip");
      answer.replaceChildren(words);
    }
  });
})();
