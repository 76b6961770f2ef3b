// Niceties for the keyboard and the mouse. Every page works without this file.
"use strict";

// "/" goes to the find field, unless somebody is writing.
document.addEventListener("keydown", (event) => {
  const find = document.getElementById("find");
  const writing = event.target.closest("input, select, textarea");
  if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey || writing || !find) return;
  event.preventDefault();
  find.focus();
  find.select();
});

// "j" and the down arrow go to the next variety of the list, "k" and the up arrow to the one before. The arrows
// scroll as ever until a variety has the focus.
const varieties = [...document.querySelectorAll(".rows h3 a, table.list tbody th a")];
document.addEventListener("keydown", (event) => {
  const step = { j: 1, ArrowDown: 1, k: -1, ArrowUp: -1 }[event.key];
  const changed = event.ctrlKey || event.metaKey || event.altKey || event.shiftKey;
  if (!step || changed || varieties.length === 0 || event.target.closest("input, select, textarea")) return;
  const here = varieties.indexOf(document.activeElement);
  if (here < 0 && event.key.startsWith("Arrow")) return;
  const next = varieties[here < 0 ? 0 : here + step];
  if (!next) return;
  event.preventDefault();
  next.focus();
});

// Files that are dropped anywhere on Bring in go the same way as files that are chosen.
const drop = document.getElementById("drop");
if (drop) {
  const files = document.getElementById("files");
  const over = (on) => drop.classList.toggle("over", on);
  drop.classList.add("can-drop");
  document.addEventListener("dragover", (event) => {
    event.preventDefault();
    over(true);
  });
  document.addEventListener("dragleave", (event) => over(event.relatedTarget !== null));
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    over(false);
    if (event.dataTransfer.files.length === 0) return;
    files.files = event.dataTransfer.files;
    drop.requestSubmit();
  });
}

// A fruit that is pressed on its photograph is ticked to be left out, or counts again.
for (const fruit of document.querySelectorAll("figure.photograph [data-fruit]")) {
  const box = document.querySelector(`input[name="leave"][value="${fruit.dataset.fruit}"]`);
  fruit.addEventListener("click", () => {
    if (box && !fruit.closest("figure.can-draw")) box.checked = !box.checked;
  });
}

// On a photograph a line drawn across a part cuts it, and a line from one part into another joins the two. The fields below the
// picture do the same by keyboard.
const photograph = document.querySelector("figure.photograph");
const wronglyParted = document.querySelector("form.photo fieldset.parts");
if (photograph && wronglyParted) {
  const SHORT = 8;
  const svg = photograph.querySelector("svg");
  const pen = document.createElement("button");
  pen.type = "button";
  pen.textContent = "Draw it on the picture";
  pen.setAttribute("aria-pressed", "false");
  pen.addEventListener("click", () => {
    const on = photograph.classList.toggle("can-draw");
    pen.setAttribute("aria-pressed", String(on));
    if (on) photograph.scrollIntoView({ block: "nearest", behavior: "instant" });
  });
  const help = document.createElement("p");
  help.className = "help";
  help.textContent = "A line across a part cuts it; a line from one part into another joins the two.";
  wronglyParted.append(pen, help);

  const onPicture = (event) => {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return [at.x, at.y];
  };
  const partAt = (x, y) => {
    const found = document.elementFromPoint(x, y)?.closest("[data-fruit], [data-part]");
    return found && svg.contains(found) ? (found.dataset.fruit ?? found.dataset.part) : null;
  };
  const say = (words) => {
    const field = document.createElement("input");
    [field.type, field.name, field.value] = ["hidden", "change", words];
    wronglyParted.append(field);
    field.form.requestSubmit();
  };
  const written = (at) => at.map((part) => Math.round(part)).join(",");
  let [begun, line] = [null, null];
  svg.addEventListener("pointerdown", (event) => {
    if (!photograph.classList.contains("can-draw")) return;
    event.preventDefault();
    svg.setPointerCapture(event.pointerId);
    begun = { x: event.clientX, y: event.clientY, at: onPicture(event) };
    line = svg.appendChild(document.createElementNS(svg.namespaceURI, "line"));
    line.setAttribute("class", "drawn");
  });
  svg.addEventListener("pointermove", (event) => {
    if (!begun) return;
    const ends = [...begun.at, ...onPicture(event)];
    ["x1", "y1", "x2", "y2"].forEach((name, place) => line.setAttribute(name, ends[place]));
  });
  const ended = () => {
    line?.remove();
    [begun, line] = [null, null];
  };
  svg.addEventListener("pointercancel", ended);
  svg.addEventListener("pointerup", (event) => {
    if (!begun) return;
    const from = begun;
    ended();
    if (Math.hypot(event.clientX - from.x, event.clientY - from.y) < SHORT) return;
    const [first, last] = [partAt(from.x, from.y), partAt(event.clientX, event.clientY)];
    if (first && last && first !== last) return say(`join ${first} ${last}`);
    const across = partAt((from.x + event.clientX) / 2, (from.y + event.clientY) / 2);
    if (across) say(`cut ${across} along ${written(from.at)} ${written(onPicture(event))}`);
  });
}

// A table of records gets a box that ticks them all.
for (const table of document.querySelectorAll("table.records")) {
  const boxes = [...table.querySelectorAll("tbody input[type=checkbox]")];
  if (boxes.length < 2) continue;
  const all = document.createElement("input");
  all.type = "checkbox";
  all.setAttribute("aria-label", "Tick all on this page");
  all.addEventListener("change", () => boxes.forEach((box) => (box.checked = all.checked)));
  table.querySelector("thead th").replaceChildren(all);
}

// What a guide's text would move is looked up whenever the writing rests, and only the newest answer is shown.
const guide = document.querySelector("form.guide");
if (guide) {
  const RESTS = 600;
  const preview = document.getElementById("preview");
  const text = guide.elements.text;
  let [shown, waiting, asking] = [text.value, 0, null];
  const look = async () => {
    if (text.value === shown) return;
    asking?.abort();
    asking = new AbortController();
    const own = asking;
    const asked = text.value;
    preview.setAttribute("aria-busy", "true");
    try {
      const body = new URLSearchParams({ do: "preview", text: asked });
      const answer = await fetch(location.pathname, { method: "POST", body, signal: own.signal });
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const told = page.getElementById("preview");
      if (told) preview.replaceChildren(...told.childNodes);
      shown = asked;
    } catch {
      // The button beside the text asks again and shows what is wrong.
    } finally {
      if (own === asking) preview.removeAttribute("aria-busy");
    }
  };
  text.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(look, RESTS);
  });
}

// A form is sent once, and says that it works while the answer is awaited.
for (const form of document.querySelectorAll("form[method=post]")) {
  form.addEventListener("submit", (event) => {
    if (form.getAttribute("aria-busy") === "true") return event.preventDefault();
    form.setAttribute("aria-busy", "true");
  });
}
addEventListener("pageshow", () => {
  for (const form of document.querySelectorAll("form[aria-busy]")) form.removeAttribute("aria-busy");
});

// On a bed map a plot is picked with the mouse and placed on another, by dragging or by two presses; the form beside
// it is filled and tells the cost. The form alone does the same by keyboard.
const mover = document.querySelector("form.mover");
const bedMap = document.querySelector("svg.bed-map");
if (mover && bedMap) {
  const stakes = [...bedMap.querySelectorAll("text.stake")];
  const ground = (stake) => {
    let before = stake.previousElementSibling;
    while (before && before.localName !== "rect") before = before.previousElementSibling;
    return before;
  };
  const under = (event) => stakes.find((stake) => {
    const area = ground(stake)?.getBoundingClientRect();
    if (!area) return false;
    const across = area.left <= event.clientX && event.clientX <= area.right;
    return across && area.top <= event.clientY && event.clientY <= area.bottom;
  });
  let picked = null;
  const pick = (stake) => {
    if (picked) ground(picked)?.classList.remove("picked");
    picked = stake;
    if (stake) ground(stake)?.classList.add("picked");
  };
  const place = (stake) => {
    mover.elements.plot.value = picked.textContent;
    mover.elements.to.value = `plot ${stake.textContent}`;
    mover.requestSubmit();
  };
  mover.closest("section").classList.add("can-pick");
  bedMap.addEventListener("pointerdown", (event) => {
    const stake = under(event);
    if (!stake) return;
    if (event.pointerType === "mouse") event.preventDefault();
    if (picked && picked !== stake) place(stake);
    else pick(stake);
  });
  bedMap.addEventListener("pointerup", (event) => {
    const stake = under(event);
    if (event.pointerType === "mouse" && picked && stake && stake !== picked) place(stake);
  });
}
