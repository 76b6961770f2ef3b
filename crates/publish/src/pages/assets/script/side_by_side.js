// The page "Side by side": up to four varieties of the list in one table. Their addresses stand in the page's own address:
// #of=drip-stone,old-pike. Needs `telling.js` and `finding.js`.
"use strict";
(() => {
  const { locule } = globalThis;
  const { list, element, called } = locule;
  const varieties = locule.ready(list);
  const form = document.getElementById("beside");
  const laidOut = document.getElementById("laid-out");
  const fields = [...form.querySelectorAll("input")];
  const byName = new Map(varieties.map((own) => [folded(own.name), own]));

  function folded(text) {
    return text.trim().toLowerCase();
  }

  const silent = (words) => element("span", words, "silent");

  const measure = (value, words, none) => [value === null ? silent(none) : words(value)];
  const named = (names, mask) => {
    const own = names.filter((_, at) => mask & (1 << at));
    return [own.length ? own.join(", ") : silent("nothing told")];
  };

  function seasons(own) {
    if (own.fruits === 0) return [silent("no fruit")];
    const fruits = locule.counted(own.fruits, "fruit", "fruits");
    return [own.seasons.length ? `${fruits}, ${own.seasons.join(", ")}` : fruits];
  }

  function claims(own) {
    const words = own.text === "" ? [silent("none")] : [element("q", own.text)];
    return own.flags & 1 ? [...words, " ", element("em", "claim contradicted", "mark")] : words;
  }

  /** What is told of each, a row a thing. */
  const ROWS = [
    ["Fruit class", (own) => called(own.class < 0 ? "between classes" : list.classes[own.class], own.classChance, own.contested & 1)],
    ["Habit", (own) => called(list.habits[own.habit], own.habitChance, own.contested & 2)],
    ["Colour", (own) => called(list.colours[own.colour], own.colourChance, own.contested & 4)],
    ["Pattern", (own) => [own.pattern < 0 ? silent("not seen") : list.patterns[own.pattern]]],
    ["Weight", (own) => measure(own.weight, (grams) => locule.mass(grams, list.units), "not weighed")],
    ["Length", (own) => measure(own.length, (long) => locule.length(long, list.units), "not measured")],
    ["Width", (own) => measure(own.width, (wide) => locule.length(wide, list.units), "not measured")],
    ["Locules", (own) => measure(own.locules, String, "not cut")],
    ["Plant height", (own) => measure(own.height, (tall) => locule.length(tall, list.units), "not measured")],
    ["First ripe fruit", (own) => measure(own.days, (days) => `${locule.counted(days, "day", "days")} from transplanting`, "not noted")],
    ["Shape", (own) => named(list.marks, own.mark)],
    ["Good for, by the guide", (own) => named(list.uses, own.use)],
    ["Said of it", claims],
    ["Rests on", seasons],
  ];

  function heading(own) {
    const made = element("th");
    made.scope = "col";
    const link = element("a");
    link.href = `varieties/${own.file}.html`;
    link.append(element("bdi", own.name));
    made.append(link);
    if (own.weight !== null || own.length !== null || own.width !== null) made.prepend(portrait(own));
    return made;
  }

  function portrait(own) {
    const picture = element("img", undefined, "portrait");
    Object.assign(picture, { src: `pictures/small/${own.file}.svg`, alt: "" });
    // A variety of which too little was measured has no portrait.
    picture.addEventListener("error", () => picture.remove());
    return picture;
  }

  function table(chosen) {
    const made = element("table", undefined, "beside");
    made.append(element("caption", chosen.map((own) => own.name).join(", "), "unseen"));
    const [head, body, first] = [element("thead"), element("tbody"), element("tr")];
    first.append(element("td"), ...chosen.map(heading));
    head.append(first);
    for (const [words, told] of ROWS) {
      const line = element("tr");
      const cell = (own) => {
        const made = element("td");
        made.append(...told(own));
        return made;
      };
      line.append(Object.assign(element("th", words), { scope: "row" }), ...chosen.map(cell));
      body.append(line);
    }
    made.append(head, body);
    return locule.framed(made, "Side by side");
  }

  function show() {
    const typed = fields.map((field) => field.value).filter((value) => value.trim() !== "");
    const chosen = [...new Set(typed.map((name) => byName.get(folded(name))).filter(Boolean))];
    const strange = typed.filter((name) => !byName.has(folded(name)));
    const parts = strange.map((name) => element("p", `${name} is not on the list.`));
    if (chosen.length) parts.push(table(chosen));
    laidOut.replaceChildren(...parts);
    try {
      history.replaceState(null, "", `#of=${chosen.map((own) => own.file).join(",")}`);
    } catch {
      // Some browsers keep no address for a page that was opened as a file.
    }
  }

  function fromAddress() {
    const of = location.hash.match(/^#of=([\w,-]*)$/)?.[1] ?? "";
    const chosen = of.split(",").map((file) => varieties.find((own) => own.file === file)).filter(Boolean);
    if (chosen.length === 0) return;
    fields.forEach((field, at) => {
      field.value = chosen[at]?.name ?? "";
    });
    show();
  }

  document.getElementById("names").append(...varieties.map((own) => Object.assign(element("option"), { value: own.name })));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    show();
  });
  form.addEventListener("change", show);
  addEventListener("hashchange", fromAddress);
  fromAddress();
})();
