// A photograph is measured, its parts are cut and joined by mouse and by keyboard, looked over at phone width, and taken.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { open, root, start, violations } from "./bench.js";

// The demo has taken this photograph: a byte more makes it another file.
const bytes = Buffer.concat([readFileSync(join(root, "demo-house/photos/chapel-oak.jpg")), Buffer.from([0])]);
const photograph = { name: "another.jpg", mimeType: "image/jpeg", buffer: bytes };

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

async function measured(page) {
  await page.goto("/photo");
  await page.locator("#files").setInputFiles(photograph);
  await page.getByRole("button", { name: "Measure" }).first().click();
  await page.getByRole("heading", { name: "Measured" }).waitFor();
}

const numbers = (page) => page.locator("table.fruit tbody th").allInnerTexts();

/** Where a fruit lies on the screen. */
async function box(page, number) {
  const fruit = page.locator(`figure.photograph [data-fruit="${number}"]`);
  await fruit.scrollIntoViewIfNeeded();
  return fruit.boundingBox();
}

/** Draws a line with the mouse. */
async function draw(page, [x, y], [right, down]) {
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move((x + right) / 2, (y + down) / 2);
  await page.mouse.move(right, down);
  await page.mouse.up();
}

test("a line across a fruit cuts it, a line from piece to piece joins them, and a box takes it back", async () => {
  const { page, complaints, close } = await open(bench);
  await measured(page);
  assert.equal((await numbers(page)).length, 11);

  await page.getByRole("button", { name: "Draw it on the picture" }).click();
  const whole = await box(page, 5);
  const middle = whole.x + whole.width / 2;
  await draw(page, [middle, whole.y - 6], [middle, whole.y + whole.height + 6]);
  await page.getByText("5 is two fruit, cut along the line that was drawn").waitFor();
  assert.deepEqual((await numbers(page)).slice(-1), ["12"]);
  assert.deepEqual(await violations(page), []);

  await page.getByRole("button", { name: "Draw it on the picture" }).click();
  const [one, other] = [await box(page, 5), await box(page, 12)];
  const inside = ({ x, y, width, height }) => [x + width / 2, y + height / 2];
  await draw(page, inside(one), inside(other));
  await page.getByText("5 and 12 are one fruit").waitFor();
  assert.equal((await numbers(page)).length, 11);

  await page.getByLabel("5 and 12 are one fruit").uncheck();
  await page.getByRole("button", { name: "Look again" }).first().click();
  await page.waitForFunction(() => document.querySelectorAll("table.fruit tbody tr").length === 12);
  assert.deepEqual(complaints, []);
  await close();
});

test("by keyboard alone, at phone width, and what was said stands in the history", async () => {
  const { page, close } = await open(bench, { width: 360 });
  await measured(page);
  await page.getByLabel("Part", { exact: true }).focus();
  await page.keyboard.type("4");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.getByText("4 is two fruit, cut where it is narrowest").waitFor();
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "nothing runs out sideways");

  await page.getByLabel("Leave fruit 12 out").check();
  await page.getByLabel("Plot, as on its stake").fill("H-019");
  await page.getByRole("button", { name: "Take the fruit" }).click();
  await page.getByRole("heading", { name: "Taken in" }).waitFor();
  await page.goto("/history");
  await page.getByText("cut 4; leave out 12").first().waitFor();
  await close();
});

test("cut faces tell both counts, and a count that is written goes before them", async () => {
  const { page, complaints, close } = await open(bench, { width: 360 });
  await measured(page);
  const rows = page.locator("table.faces tbody tr");
  assert.equal(await rows.count(), 2);
  assert.match(await rows.first().innerText(), /2 locules[^]*2 locules[^]*2: \d+ in 100/);
  await page.getByLabel("Locules of fruit 10").fill("many");
  await page.getByRole("button", { name: "Look again" }).first().click();
  await page.getByText("is no count of locules").waitFor();
  await page.goBack();
  await page.getByLabel("Locules of fruit 10").fill("4");
  await page.getByRole("button", { name: "Look again" }).first().click();
  await page.getByRole("heading", { name: "Measured" }).waitFor();
  assert.equal(await page.getByLabel("Locules of fruit 10").inputValue(), "4");
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "nothing runs out sideways");
  assert.deepEqual(await violations(page), []);
  // The browser itself tells of the count that was refused, and of nothing else.
  assert.equal(complaints.length, 1);
  assert.match(complaints[0], /400/);
  await close();
});
