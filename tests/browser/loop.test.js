// The loop as its keeper walks it: files in, read, taken, mended, called, found on the list, opened up, undone.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, start } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const file = (name, text) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

const names = "Variety,Also known as\nHedge Clock,Hedgeclock\n";
const fruit =
  "Variety,Date,Plant,Locules,Weight\n" +
  [1, 2, 3, 4].flatMap((plant) => [1, 2, 3, 4, 5].map((day) => `Hedge Clock,2026-08-0${day},${plant},2,${15 + plant} g`)).join("\n") +
  "\nHedge Clock,2026-08-06,1,2,see Monday\n";

test("from files to the list and back", async () => {
  const { page, complaints, close } = await open(bench);

  await page.goto("/bring-in");
  await page.getByLabel("Choose files").setInputFiles([file("fruit.csv", fruit), file("names.csv", names)]);
  await page.getByRole("button", { name: "See how they are read" }).click();
  await page.getByRole("heading", { name: "How the files are read" }).waitFor();
  assert.match(await page.locator(".becomes").last().innerText(), /20 entries; 1 row would be quarantined/);

  await page.getByRole("button", { name: "Take the 2 tables in" }).click();
  await page.getByRole("heading", { name: "Taken in" }).waitFor();
  assert.match(await page.locator(".became").innerText(), /20 fruit samples/);

  await page.getByRole("link", { name: "Mend 1 quarantined row" }).click();
  await page.getByLabel("File").selectOption("fruit.csv");
  await page.getByRole("button", { name: "Show", exact: true }).click();
  await page.getByRole("link", { name: /^Mend \d+$/ }).click();
  const faulty = page.locator("[aria-invalid=true]");
  assert.equal(await faulty.inputValue(), "see Monday");
  await faulty.fill("19 g");
  await page.getByRole("button", { name: "Take the row" }).click();
  await page.locator(".notice", { hasText: /is mended and taken/ }).first().waitFor();

  await page.getByRole("link", { name: "The list" }).first().click();
  await page.getByRole("button", { name: "Call again" }).click();
  await page.locator(".notice", { hasText: /varieties called/ }).first().waitFor();

  await page.getByLabel("Ask in plain words").fill("hedge clock");
  await page.getByRole("button", { name: "Show", exact: true }).click();
  await page.waitForURL(/q=hedge\+clock/);
  await page.getByRole("link", { name: "Hedge Clock" }).click();
  await page.getByRole("heading", { level: 1, name: "Hedge Clock" }).waitFor();
  const told = await page.locator("main").innerText();
  assert.match(told, /21 records/);
  assert.match(told, /fruit\.csv, row 2/);

  await page.goto("/history");
  const own = page.locator("tr", { hasText: "names.csv" });
  await own.getByRole("link").first().click();
  await page.getByRole("button", { name: /^Undo batch \d+ and the 2 that rest on it$/ }).click();
  await page.locator(".notice", { hasText: /3 batches undone/ }).first().waitFor();
  await page.goto("/?find=hedge+clock");
  assert.match(await page.locator("main").innerText(), /No variety fits/);

  assert.deepEqual(complaints, []);
  await close();
});

test("what a file does not say is asked and answered", async () => {
  const { page, close } = await open(bench, { width: 360 });
  await page.goto("/bring-in");
  const odd = "Variety,Date,Locules,Weight\nDrip Stone,03/04/2026,2,16\nDrip Stone,05/06/2026,2,17\n";
  await page.getByLabel("Choose files").setInputFiles([file("odd.csv", odd)]);
  await page.getByRole("button", { name: "See how they are read" }).click();
  assert.match(await page.locator(".asks").innerText(), /day first or month first/);
  await page.getByLabel("Unit of column Weight").selectOption("g");
  await page.getByLabel("Order of dates of column Date").selectOption("month first");
  await page.getByRole("button", { name: "Read again with these answers" }).click();
  await page.getByRole("heading", { name: "How the files are read" }).waitFor();
  assert.equal(await page.locator(".asks").count(), 0);
  assert.match(await page.locator(".becomes").innerText(), /2 rows give 2 entries/);
  await page.getByRole("button", { name: "Leave them" }).click();
  await page.getByRole("heading", { name: "Bring in" }).waitFor();
  await close();
});

test("files are brought in by dropping them", async () => {
  const { page, close } = await open(bench);
  await page.goto("/bring-in");
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], "dropped.csv", { type: "text/csv" }));
    document.getElementById("drop").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
  }, names);
  await page.getByRole("heading", { name: "How the files are read" }).waitFor();
  assert.match(await page.locator("main").innerText(), /dropped\.csv/);
  await close();
});

test("markup in a file stays words", async () => {
  const { page, complaints, close } = await open(bench);
  await page.goto("/bring-in");
  const evil = 'Variety\n"<img src=x onerror=alert(1)>"\n';
  page.on("dialog", () => assert.fail("a script ran"));
  await page.getByLabel("Choose files").setInputFiles([file("<b>evil.csv", evil)]);
  await page.getByRole("button", { name: "See how they are read" }).click();
  await page.getByRole("button", { name: "Take it in" }).click();
  await page.goto("/?find=onerror");
  assert.equal(await page.locator(".rows h3").innerText(), "<img src=x onerror=alert(1)>");
  await page.locator(".rows h3 a").click();
  await page.getByRole("heading", { level: 1, name: "<img src=x onerror=alert(1)>" }).waitFor();
  assert.deepEqual(complaints, []);
  await close();
});
