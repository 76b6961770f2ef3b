// The page "What is it?": tells class, habit and colour with how sure, what one more look would tell, and the nearest
// varieties on the list. Needs `what_form.js` and the sums.
"use strict";
(() => {
  const { locule } = globalThis;
  const { list, alike, Slip, element } = locule;
  const { plant, colour, habits: habitKinds } = locule.rule;
  const rule = { ...locule.rule.class, chances: locule.chances(locule.rule.class) };
  const form = document.getElementById("unknown");
  const answer = document.getElementById("answer");
  const SVG = "http://www.w3.org/2000/svg";
  const TOLD_FROM = 0.01;
  const CONTESTED_UNDER = 0.8;
  const NEAREST = 6;
  const state = {};

  function ink(share) {
    const svg = document.createElementNS(SVG, "svg");
    const line = document.createElementNS(SVG, "rect");
    for (const [name, value] of [["width", 160], ["height", 8], ["viewBox", "0 0 160 8"], ["aria-hidden", "true"]]) {
      svg.setAttribute(name, value);
    }
    for (const [name, value] of [["y", 2.5], ["width", Math.max(1, 160 * share)], ["height", 3], ["fill", "currentColor"]]) {
      line.setAttribute(name, value);
    }
    svg.append(line);
    return svg;
  }

  const hundredths = (share) => locule.chance(Math.round(share * 100));

  /** The words of the list for how sure a call is. */
  function likelihood(share) {
    if (0.95 <= share) return "almost surely";
    if (0.8 <= share) return "very probably";
    return 0.5 <= share ? "probably" : "perhaps";
  }

  /** Answers with their shares, the likeliest first, those next to nothing left out. */
  function ranked(shares, answers) {
    const all = shares.map((share, at) => ({ share, own: answers[at] }));
    return all.filter(({ share }) => TOLD_FROM <= share).sort((one, other) => other.share - one.share);
  }

  function told({ share, own }) {
    const line = element("li");
    const name = own.page ? element("a", own.name) : element("span", own.name);
    if (own.page) name.href = own.page;
    line.append(name, " ", element("span", hundredths(share), "chance"), ink(share));
    return line;
  }

  function bulleted(lines, className) {
    const made = element("ul", undefined, className);
    made.append(...lines);
    return made;
  }

  /** The rule in words: what a habit is, the limits of a class. */
  function rules({ own }) {
    if (own.what) return [element("p", own.what, "basis")];
    if (!own.limits?.length) return [];
    return [element("p", `The guide's limits (${own.name}):`, "basis"), bulleted(own.limits.map((words) => element("li", words)))];
  }

  function looksTold(looks) {
    if (looks.length === 0) return [];
    const line = ({ words, expected }) => {
      const made = element("li", words);
      made.append(" ", element("span", `then about ${hundredths(expected)}`, "chance"));
      return made;
    };
    return [element("h3", "What one more look would tell"), bulleted(looks.map(line))];
  }

  /** One call: its likeliest answer as the heading, all answers, the limits that decide, and the next looks. */
  function call(about, ranks, looks) {
    const part = element("section");
    if (ranks === null) {
      part.append(element("h2", `${about}: not told`), ...looksTold(looks));
      return part;
    }
    const [first, second] = ranks;
    const isContested = first.share < CONTESTED_UNDER;
    part.append(element("h2", `${about}: ${likelihood(first.share)} ${first.own.name} (${hundredths(first.share)})`));
    part.append(bulleted(ranks.map(told), "shares"), ...rules(first));
    if (isContested && second) part.append(...rules(second));
    part.append(...looksTold(looks));
    return part;
  }

  const classes = [...rule.classes, { name: "between classes", limits: [] }];
  const names = (words) => words.map((name) => ({ name }));

  function calls({ fruits, written, plant: answers }) {
    const shares = locule.classShares(fruits, rule);
    const class_ = shares && ranked([...shares.shares, shares.between], classes);
    const habits = locule.isTold(answers, plant) ? locule.habitShares(answers, plant, list.habits.length) : null;
    const isColoured = ["outside", "flesh", "skin"].some((part) => written[part] !== undefined);
    const colours = locule.colourShares(written, colour);
    const parts = [
      call("Fruit class", class_, locule.classLooks(fruits, rule)),
      call("Habit", habits && ranked(habits, habitKinds), locule.habitLooks(answers, plant, list.habits.length)),
      call("Colour", isColoured ? ranked(colours.outside, names(colour.colours)) : null, locule.colourLooks(written, colour)),
    ];
    return { parts, known: { habits, colours: isColoured ? colours.outside : null,
      pattern: written.pattern === undefined ? null : colours.pattern } };
  }

  /** The middle of what the fruits told of a trait, on the scale that varieties are compared on. */
  function middle(fruits, tell) {
    const values = fruits.map(tell).filter((value) => value !== null && Number.isFinite(value));
    return values.length ? values.reduce((sum, own) => sum + own, 0) / values.length : null;
  }

  function asked(fruits, { habits, colours, pattern }) {
    const log = (value) => (value === null ? null : Math.log(value));
    const both = (own) => own.length !== null && own.width !== null;
    return {
      weight: middle(fruits, (own) => log(own.weight)) ??
        middle(fruits, (own) => (both(own) ? locule.logWeight(Math.log(own.length), Math.log(own.width)) : null)),
      shape: middle(fruits, (own) => (both(own) ? Math.log(own.length / own.width) : null)),
      neck: middle(fruits, (own) => (own.neck === null ? null : own.neck / own.width)),
      locules: log(middle(fruits, (own) => own.locules)),
      lobes: middle(fruits, (own) => own.lobes),
      solids: middle(fruits, (own) => own.solids),
      habit: habits, colour: colours, pattern,
    };
  }

  function near({ place }, known) {
    const variety = state.varieties[place];
    const line = element("li");
    const link = element("a");
    link.href = `varieties/${variety.file}.html`;
    link.append(element("bdi", variety.name));
    const what = variety.class < 0 ? "between classes" : list.classes[variety.class];
    const words = { colours: colour.colours, habits: list.habits, patterns: colour.patterns };
    line.append(link, `, ${what}: ${locule.reasons(known, locule.profile(alike, place), words)}`);
    return line;
  }

  function nearest(fruits, known) {
    state.varieties ??= locule.ready(list);
    const profile = asked(fruits, known);
    const close = locule.nearest(profile, alike, state.varieties.length, NEAREST);
    if (close.length === 0) return [];
    return [element("h2", "The nearest on the list"), bulleted(close.map((own) => near(own, profile)))];
  }

  /** How far the fruits speak for their variety. */
  function howFar(fruits) {
    if (fruits.length === 0) return [];
    const these = fruits.length === 1 ? "One fruit stands for its variety here" : `${fruits.length} fruits stand for their variety here`;
    return [element("p", `${these}. Fruits, plants and seasons of one variety differ, and that is in the numbers; more fruits ` +
      "of more plants would tell more.", "basis")];
  }

  function reckon() {
    const all = locule.told();
    const isBlank = all.fruits.length === 0 && Object.keys(all.written).length === 0 && !locule.isTold(all.plant, plant);
    if (isBlank) throw new Slip("tell something of it: weigh a fruit, note its colour, look at the plant");
    const { parts, known } = calls(all);
    return [...howFar(all.fruits), ...parts, ...nearest(all.fruits, known)];
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
