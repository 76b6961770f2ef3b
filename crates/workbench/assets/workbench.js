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
