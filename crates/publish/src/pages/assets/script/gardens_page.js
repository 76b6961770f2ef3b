// The page "For your garden": the questions, whose answers stand in the address, and the answer. Needs `gardens_answer.js`.
"use strict";
(() => {
  const { locule } = globalThis;
  const { list, gardens, element, framed } = locule;
  const varieties = locule.ready(list);
  const form = document.getElementById("asked");
  const answer = document.getElementById("answer");
  const fields = form.elements;
  /** `weeks`: those that somebody said, else `null`, and then they follow from the crops. */
  const state = { garden: null, fetched: new Map(), weeks: null };

  function options(select, words, { any, chosen } = {}) {
    const option = (text, value) => {
      const made = element("option", text);
      made.value = value;
      return made;
    };
    const all = words.map(([text, value]) => option(text, value));
    select.replaceChildren(...(any ? [option(any, "")] : []), ...all);
    if (chosen !== undefined && [...select.options].some((own) => own.value === String(chosen))) select.value = chosen;
  }

  const numbered = (words) => words.map((text, at) => [text, at]);
  const capitalised = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);
  const chosen = (name) => (fields[name].value === "" ? null : Number(fields[name].value));
  const mass = (tens) => (tens === 0 ? "-" : locule.massBriefly(tens * 10, list.units));

  /** A region's crops are fetched when it is first chosen: a script of our own folder, as a page opened as a file may load. */
  function fetched(address) {
    if (!state.fetched.has(address)) {
      state.fetched.set(address, new Promise((resolve, reject) => {
        const script = element("script");
        script.src = `data/gardens/${address}.js`;
        script.addEventListener("load", () => resolve(locule.garden));
        script.addEventListener("error", () => reject(new Error(script.src)));
        document.head.append(script);
      }));
    }
    return state.fetched.get(address);
  }

  const purpose = () => gardens.purposes[chosen("purpose")];

  /** Amounts, and whether weeks or kitchen days are asked, follow the purpose. */
  function followPurpose() {
    options(fields.amount, numbered(purpose().amounts.map(([words]) => words)));
    const isTable = purpose().used === "each week";
    for (const [name, shown] of [["days", !isTable], ["from", isTable], ["to", isTable]]) {
      fields[name].closest("label").hidden = !shown;
    }
  }

  const asked = () => ({
    suits: purpose().suits, class: chosen("class"), habit: chosen("habit"), colour: chosen("colour"),
  });

  function want(suits) {
    const [, tens, aDay] = purpose().amounts[chosen("amount")];
    if (purpose().used === "each week") {
      const weeks = [chosen("from"), chosen("to")];
      return { tens, days: null, weeks };
    }
    const days = chosen("days") + 1;
    return { tens, days: [days, aDay[days - 1]], weeks: [0, state.garden.weeks.length - 1] };
  }

  /** Weeks that nobody said are those that a few plants keep. */
  function followWeeks(suits) {
    const words = numbered(state.garden.weeks);
    const [, tens] = purpose().amounts[chosen("amount")];
    const usual = suits.length === 0 ? null : locule.usualWeeks(suits, tens, chosen("sure") + 7, state.garden);
    const [from, to] = state.weeks ?? usual ?? [0, words.length - 1];
    options(fields.from, words, { chosen: from });
    options(fields.to, words, { chosen: to });
  }

  async function show() {
    try {
      state.garden = await fetched(gardens.regions[chosen("region")][1]);
    } catch (fault) {
      answer.replaceChildren(element("p", `This region's file is not in the folder (${fault.message}).`));
      return;
    }
    const suits = locule.suiting(asked(), varieties, list, state.garden);
    followWeeks(suits);
    keep();
    if (suits.length === 0) {
      answer.replaceChildren(element("h2", "No variety of the list is such, suits, and has picks that tell what it bears"), ...remarks(null));
      return;
    }
    const wanted = want(suits);
    if (wanted.weeks[1] < wanted.weeks[0]) {
      answer.replaceChildren(element("h2", "The last week lies before the first"));
      return;
    }
    tell(suits, wanted, locule.answered(suits, wanted, chosen("sure") + 7, state.garden));
  }

  function tell(suits, wanted, found) {
    const parts = [element("h2", heading(suits, found))];
    if (found.count < suits.length && wanted.days === null && found.count === 0) {
      parts.push(element("p", "Ask for fewer weeks, for less, or for a kind of fruit that bears longer."));
    }
    if (found.ones.length) parts.push(table(found.ones));
    if (found.two) parts.push(...together(found.two));
    const best = found.two ? found.two.own.map((own, at) => [own, found.two.plants[at]])
      : found.ones.slice(0, 1).map(({ own, plants }) => [own, plants]);
    if (best.length) parts.push(...weekByWeek(best));
    parts.push(...remarks(found));
    answer.replaceChildren(...parts);
  }

  function heading(suits, { count, two }) {
    const suit = locule.counted(suits.length, "variety suits", "varieties suit");
    if (count === 0) return two ? `No one variety does it alone, two do (${suit})` : `No one or two varieties do it (${suit})`;
    return `${count} of ${suit.replace(" suits", "").replace(" suit", "")} ${count === 1 ? "does" : "do"} it alone`;
  }

  function link(own) {
    const made = element("a");
    made.href = `varieties/${own.file}.html`;
    made.append(element("bdi", own.name));
    return made;
  }

  function called(own) {
    const words = [own.class < 0 ? null : list.classes[own.class], own.habit < 0 ? null : list.habits[own.habit],
      own.colour < 0 ? null : list.colours[own.colour]];
    const cell = element("td", words.filter(Boolean).join(", "));
    if (own.contested) cell.append(" ", element("em", "contested", "mark"));
    return cell;
  }

  function weekWords(weeks) {
    const [early, usual, late] = weeks.map((week) => state.garden.weeks[week] ?? "no fruit");
    return early === late ? `week of ${usual}` : `week of ${usual} (${early} to ${late})`;
  }

  function table(ones) {
    const made = element("table", undefined, "answers");
    made.append(element("caption", "By itself, the fewest plants first", "unseen"), head(["Variety", "Called", "Plants", "First fruit"]));
    const body = element("tbody");
    for (const { own, plants } of ones) {
      const line = element("tr");
      const name = element("th");
      name.scope = "row";
      name.append(link(own));
      line.append(name, called(own), element("td", String(plants), "count"), element("td", weekWords(locule.firstTold(locule.bearing(state.garden, own.at)))));
      body.append(line);
    }
    made.append(body);
    return framed(made, "By itself, the fewest plants first");
  }

  function head(words) {
    const made = element("thead");
    const line = element("tr");
    line.append(...words.map((text) => Object.assign(element("th", text), { scope: "col" })));
    made.append(line);
    return made;
  }

  function together({ own, plants }) {
    const line = element("p");
    const total = plants[0] + plants[1];
    line.append(locule.counted(plants[0], "plant", "plants"), " of ", link(own[0]), " and ", String(plants[1]), " of ", link(own[1]),
      `: ${total} in all.`);
    return [element("h3", "Two together"), line];
  }

  /** Weeks of harvest of the best answer, in poor, middling and good years. */
  function weekByWeek(best) {
    const planted = best.map(([own, plants]) => [locule.bearing(state.garden, own.at), plants]);
    const weeks = state.garden.weeks.map((words, week) => ({ words, told: locule.weekTold(planted, week) }));
    const bearing = weeks.filter(({ told }) => 0 < told[2]);
    const made = element("table", undefined, "answers");
    made.append(element("caption", "Week by week", "unseen"), head(["Week of", "Poor year", "Middling", "Good year"]));
    const body = element("tbody");
    for (const { words, told } of bearing) {
      const line = element("tr");
      line.append(Object.assign(element("th", words), { scope: "row" }), ...told.map((tens) => element("td", mass(tens), "count")));
      body.append(line);
    }
    made.append(body);
    const names = best.map(([own, plants]) => `${plants} of ${own.name}`).join(" and ");
    return [element("h3", `Week by week: ${names}`), framed(made, "Week by week")];
  }

  function remarks(found) {
    const parts = [];
    if (purpose().used === "in jars") {
      const all = element("ul", undefined, "cautions");
      all.append(...gardens.cautions.map(([of, words]) => {
        const line = element("li");
        line.append(element("strong", `${of}. `), words);
        return line;
      }));
      parts.push(element("h3", "Before anything goes into jars"), all);
    }
    const years = found === null ? "" : ` Kept in ${found.years} of ${found.of} sampled years.`;
    parts.push(element("p", `${state.garden.weather} Plants go out on ${state.garden.out}, all of them on one day, by the calendar of that ` +
      "place. Every plant bears as it bore in the house's own plots; nothing is added for what animals, hail or neglect take. Fruit is used " +
      `in the week in which it ripens.${years}`, "basis"));
    return parts;
  }

  const KEPT = ["region", "purpose", "amount", "days", "from", "to", "sure", "class", "habit", "colour"];

  /** The answers stand in the address, so that they can be kept and sent. */
  function keep() {
    const said = new URLSearchParams();
    for (const name of KEPT) {
      const areWeeks = name === "from" || name === "to";
      if (fields[name].value !== "" && (!areWeeks || state.weeks !== null)) said.set(name, fields[name].value);
    }
    try {
      history.replaceState(null, "", `#${said}`);
    } catch {
      // Some browsers keep no address for a page that was opened as a file; the page works all the same.
    }
  }

  function fromAddress() {
    const said = new URLSearchParams(location.hash.slice(1));
    const has = (name, value) => [...fields[name].options].some((own) => own.value === value);
    for (const name of KEPT) {
      const value = said.get(name);
      if (value !== null && has(name, value)) fields[name].value = value;
      if (name === "purpose") followPurpose();
    }
    const weeks = ["from", "to"].map((name) => said.get(name));
    state.weeks = weeks.every((week) => /^\d+$/.test(week)) ? weeks.map(Number) : null;
  }

  options(fields.colour, numbered(list.colours.map(capitalised)), { any: "any" });
  fields.sure.value = "1";
  followPurpose();
  fromAddress();
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("change", ({ target }) => {
    if (target === fields.from || target === fields.to) state.weeks = [chosen("from"), chosen("to")];
    else if ([fields.region, fields.purpose, fields.amount].includes(target)) state.weeks = null;
    if (target === fields.purpose) followPurpose();
    show();
  });
  show();
})();
