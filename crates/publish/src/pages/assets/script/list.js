// The list page: search in plain words, and a table that sorts. Without it the page says all the same.
"use strict";
(() => {
  const { locule } = globalThis;
  const { list, words, element } = locule;
  const AT_ONCE = 100;
  const form = document.getElementById("search");
  const field = document.getElementById("wish");
  const told = document.getElementById("read-as");
  const count = document.getElementById("found");
  const table = document.querySelector("table.list");
  const body = table.tBodies[0];
  const more = document.getElementById("more");
  const bench = document.querySelector(".bench");
  const figures = [...document.querySelectorAll(".bench li[data-at]")];
  const state = { by: "name", isTurned: false, shown: [], varieties: null, vocabulary: null };

  /** Reads the data: done once, when it is first asked for. */
  function varieties() {
    if (!state.varieties) {
      state.varieties = locule.ready(list);
      const names = state.varieties.flatMap((own) => [own.name, ...own.also.split("\n")]);
      state.vocabulary = locule.vocabulary(words.phrases, words.limits, names);
    }
    return state.varieties;
  }

  function call(...told) {
    const cell = element("td");
    cell.append(...locule.called(...told));
    return cell;
  }

  function row(own) {
    const line = element("tr");
    const head = element("th");
    head.scope = "row";
    const link = element("a");
    link.href = `varieties/${own.file}.html`;
    link.append(element("bdi", own.name));
    head.append(link);
    if (own.flags & 1) head.append(" ", element("em", "claim contradicted", "mark"));
    const between = (at, word) => (at < 0 ? "between classes" : word);
    const weight = element("td");
    weight.append(own.weight === null ? element("span", "not weighed", "silent") : locule.massBriefly(own.weight, list.units));
    line.append(
      head,
      call(between(own.class, list.classes[own.class]), own.classChance, own.contested & 1),
      call(list.habits[own.habit], own.habitChance, own.contested & 2),
      call(list.colours[own.colour], own.colourChance, own.contested & 4),
      weight,
      element("td", own.fruits ? locule.counted(own.fruits, "fruit", "fruits") : "no fruit"),
    );
    return line;
  }

  /** Adds the next rows: long lists are drawn as they come into sight. */
  function addRows() {
    const from = body.rows.length;
    body.append(...state.shown.slice(from, from + AT_ONCE).map(row));
    more.hidden = state.shown.length <= body.rows.length;
  }

  function show() {
    const text = field.value.trim();
    const all = varieties();
    const reading = locule.read(text, state.vocabulary);
    const fitting = text ? all.filter(locule.fitting(reading.wish, list)) : all;
    state.shown = locule.sorted(fitting, state.by, state.isTurned);
    body.replaceChildren();
    addRows();
    tell(text, reading, all.length);
    showOnBench(new Set(fitting.map((own) => own.at)));
  }

  function tell(text, reading, of) {
    const item = (part) => {
      const line = element("li");
      const mended = part.mended === null ? "" : " (mended)";
      line.append(element("q", part.said), `: ${locule.partWords(part, list.units, words.limits)}${mended}`);
      return line;
    };
    told.replaceChildren(...reading.parts.map(item));
    told.hidden = reading.parts.length === 0;
    const found = locule.counted(of, "variety", "varieties");
    count.textContent = text ? `${state.shown.length.toLocaleString("en")} of ${found}` : found;
  }

  function showOnBench(fitting) {
    for (const figure of figures) figure.hidden = !fitting.has(Number(figure.dataset.at));
    const isPart = fitting.size < state.varieties.length;
    bench?.classList.toggle("stacked", isPart);
    for (const part of document.querySelectorAll(".bench .row, .bench .shelf")) {
      const inside = [...part.querySelectorAll("li[data-at]")];
      const seen = inside.filter((figure) => !figure.hidden).length;
      part.classList.toggle("bare", isPart && seen === 0);
      const count = part.querySelector(":scope > * > .count");
      if (count && 0 < inside.length) count.textContent = seen;
    }
  }

  /** Headings become buttons that sort. */
  function sortBy(heading) {
    const by = heading.dataset.sorts;
    const button = element("button", heading.textContent, "sorts");
    button.type = "button";
    button.addEventListener("click", () => {
      state.isTurned = state.by === by && !state.isTurned;
      state.by = by;
      for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
      heading.setAttribute("aria-sort", state.isTurned ? "descending" : "ascending");
      show();
    });
    heading.replaceChildren(button);
  }

  /** The wish stands in the address, so that it can be kept and sent. */
  function keep() {
    const wish = field.value.trim();
    const address = wish ? `#wish=${encodeURIComponent(wish)}` : location.pathname.split("/").at(-1) || "./";
    try {
      history.replaceState(null, "", address);
    } catch {
      // Some browsers keep no address for a page that was opened as a file; the search works all the same.
    }
  }

  function fromAddress() {
    const wish = location.hash.match(/^#wish=(.*)$/)?.[1];
    if (wish === undefined) return;
    try {
      field.value = decodeURIComponent(wish);
    } catch {
      return;
    }
    show();
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    show();
    keep();
  });
  field.addEventListener("input", show);
  field.addEventListener("change", keep);
  more.addEventListener("click", addRows);
  for (const heading of table.tHead.rows[0].cells) sortBy(heading);
  new IntersectionObserver(([seen]) => seen.isIntersecting && addRows()).observe(more);
  addEventListener("hashchange", fromAddress);
  if (body.rows.length === 0) show();
  fromAddress();
})();
