// The form of the page "What is it?": what was typed and chosen, as the sums take it; and groups for further fruits.
"use strict";
(() => {
  const { locule } = globalThis;
  const { list } = locule;
  const WIDEST_NECK = 1.1;
  const FURTHEST_FROM_SIZE = 3.0;
  const LOG_DENSITY = -7.496515954236816;
  const MOST_FRUITS = 24;
  const OWN_UNITS = list.units === "us" ? { mass: "oz", length: "in" } : { mass: "g", length: "mm" };
  const form = document.getElementById("unknown");
  const fruits = document.getElementById("fruits");
  const blank = fruits.firstElementChild.cloneNode(true);

  /** What cannot be read or cannot be, with what to do. */
  class Slip extends Error {}

  /** A mass in grams or a length in millimetres, in any unit; a bare number is in the house's own. */
  function measure(input, of) {
    const said = input.value.trim();
    if (!said) return null;
    const own = /^[\d.,½¼¾⅓⅔ /]+$/.test(said) ? `${said} ${OWN_UNITS[of]}` : said;
    const tokens = locule.tokens(own);
    const found = locule.amount(tokens, 0);
    const isMass = found?.want.kind === "weight";
    const isOne = found && found.end === tokens.length && found.want.how === "about" && isMass === (of === "mass") &&
      !["days", "locules"].includes(found.want.kind);
    if (!isOne) throw new Slip(`"${said}" cannot be read; write one number and one unit, such as ${input.dataset.such}`);
    if (!(0 < found.want.low)) throw new Slip(`"${said}" is nothing; leave out what was not measured`);
    return found.want.low;
  }

  function plain(input, least, most, words) {
    const said = input.value.trim().replace(/\s*(%|per cent|percent|°?\s*brix)$/i, "").replace(",", ".");
    if (!said) return null;
    const value = Number(said);
    if (!(least <= value && value <= most)) throw new Slip(`"${said}" is no ${words}; write a number from ${least} to ${most}`);
    return value;
  }

  function counted(input, least, words) {
    const value = plain(input, least, 100, `count of ${words}`);
    if (value !== null && !Number.isInteger(value)) throw new Slip(`${words} are counted; write a whole number`);
    return value;
  }

  function fruit(group) {
    const input = (name) => group.querySelector(`[name="${name}"]`);
    const own = {
      weight: measure(input("weight"), "mass"), length: measure(input("length"), "length"),
      width: measure(input("width"), "length"), neck: measure(input("neck"), "length"),
      locules: counted(input("locules"), 1, "locules"), lobes: counted(input("lobes"), 0, "lobes"),
      solids: plain(input("solids"), 0.5, 30, "percentage"), dry: plain(input("dry"), 0.5, 30, "percentage"),
    };
    check(own);
    return own;
  }

  /** Refuses what no tomato can be. */
  function check(own) {
    if (own.neck !== null && own.width === null) throw new Slip("the neck is told by the width; measure both");
    if (own.neck !== null && WIDEST_NECK * own.width < own.neck) {
      throw new Slip("the neck is wider than the fruit; measure it a quarter of the way down, and the width where it is greatest");
    }
    if (own.solids !== null && own.dry !== null && own.dry < own.solids) {
      throw new Slip("dry matter holds the soluble solids and more; look at both");
    }
    if (own.weight !== null && own.length !== null && own.width !== null) {
      const bySize = LOG_DENSITY + 2 * Math.log(own.width) + Math.log(own.length);
      if (Math.log(FURTHEST_FROM_SIZE) < Math.abs(Math.log(own.weight) - bySize)) {
        throw new Slip(`a fruit of this length and width weighs about ${locule.mass(Math.exp(bySize), list.units)}; look at the units`);
      }
    }
  }

  const chosen = (name) => form.querySelector(`select[name="${name}"]`).value;

  /** The places of the words that were chosen for the colours. */
  function written() {
    const parts = ["outside", "flesh", "skin", "pattern"].filter((part) => chosen(part) !== "");
    return Object.fromEntries(parts.map((part) => [part, Number(chosen(part))]));
  }

  function plant() {
    const names = Object.keys(locule.rule.plant.questions);
    const told = Object.fromEntries(names.map((name) => [name, chosen(name)]).filter(([, key]) => key));
    const [stem, trusses] = [chosen("stem"), chosen("trusses")];
    if (!stem && trusses) throw new Slip("say whether the main stem has ended or still grows");
    if (stem === "growing" && !trusses) throw new Slip("count the trusses on the stem that still grows");
    return { ...told, stem: stem || undefined, trusses: trusses ? Number(trusses) : null };
  }

  /** All that was told: `{ fruits, written, plant }`. */
  function told() {
    const groups = [...fruits.children];
    const isEach = chosen("plants") === "each";
    const all = groups.map(fruit).filter((own) => Object.values(own).some((value) => value !== null));
    return { fruits: all.map((own, at) => ({ ...own, plant: isEach ? at + 1 : 0 })), written: written(), plant: plant() };
  }

  /** Numbers the groups, and asks for their plants once there are several. */
  function arrange() {
    const groups = [...fruits.children];
    groups.forEach((group, at) => {
      group.querySelector("legend").textContent = groups.length === 1 ? "The fruit" : `Fruit ${at + 1}`;
    });
    document.getElementById("borne").hidden = groups.length === 1;
    document.getElementById("another").hidden = MOST_FRUITS <= groups.length;
  }

  document.getElementById("another").addEventListener("click", () => {
    const group = blank.cloneNode(true);
    fruits.append(group);
    arrange();
    group.querySelector("input").focus();
  });

  form.addEventListener("reset", () => {
    [...fruits.children].slice(1).forEach((group) => group.remove());
    arrange();
    document.getElementById("answer").replaceChildren();
  });

  Object.assign(locule, { told, Slip });
})();
