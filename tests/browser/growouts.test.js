// Laying a grow-out out in the form, and moving a plot by keyboard and by mouse, at the width of a desk and of a phone.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, overflow, start, violations, widths } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

async function fill(page, name) {
  await page.goto("/grow-outs/new");
  await page.getByLabel("Name of the grow-out").fill(name);
  await page.getByLabel("Or varieties by name, one a line").fill("Drip Stone\nMarl\nShot Tower\nTin Whistle");
  await page.getByLabel("Checks, one a line").fill("Marl");
  await page.getByLabel("Name", { exact: true }).first().fill("North");
  await page.getByLabel("Length").first().fill("90 ft");
  await page.getByLabel("Width").first().fill("4 ft");
}

for (const width of widths) {
  test(`a grow-out is laid out and a plot moved at ${width} pixels`, async () => {
    const { page, complaints, close } = await open(bench, { width });
    const name = `2027 Trial ${width}`;
    await fill(page, name);
    await page.getByRole("button", { name: "Lay it out" }).click();
    await page.locator("svg.bed-map").waitFor();
    assert.deepEqual(await violations(page), []);
    assert.ok((await overflow(page)) <= 0, "the map scrolls by itself, the page does not");
    await page.getByRole("button", { name: "Keep it" }).click();
    await page.waitForURL(/did=/);
    await page.getByRole("heading", { name, level: 1 }).waitFor();
    assert.deepEqual(await violations(page), []);
    assert.ok((await overflow(page)) <= 0);

    // By keyboard alone: pick, place, ask.
    const before = await page.locator("svg.bed-map text.variety").allTextContents();
    await page.locator("select[name=plot]").selectOption("101");
    await page.locator("select[name=to]").selectOption("plot 204");
    await page.getByRole("button", { name: "What would it cost?" }).press("Enter");
    await page.locator(".notice", { hasText: /Varieties are compared|This costs|no longer be compared/ }).waitFor();
    assert.deepEqual(await page.locator("svg.bed-map text.variety").allTextContents(), before, "only asked");
    await page.getByRole("button", { name: "Move it" }).press("Enter");
    await page.locator(".notice", { hasText: /101 was moved, batch \d+/ }).waitFor();

    // By mouse on the map: pressed on one plot, let go on another; the form tells the cost.
    const [one, other] = [page.locator("svg.bed-map text.stake").nth(0), page.locator("svg.bed-map text.stake").nth(1)];
    await one.scrollIntoViewIfNeeded();
    const label = await one.textContent();
    await one.hover();
    await page.mouse.down();
    await other.hover();
    await page.mouse.up();
    await page.waitForFunction((label) => document.querySelector("select[name=plot]").value === label, label);
    assert.deepEqual(complaints, []);
    await close();
  });
}

for (const [look, options] of [["dark", { colorScheme: "dark" }], ["contrast", { contrast: "more" }], ["forced-colours", { forcedColors: "active" }]]) {
  test(`a bed map in ${look}`, async () => {
    const { page, close } = await open(bench, options);
    await fill(page, `2027 ${look}`);
    await page.getByRole("button", { name: "Lay it out" }).click();
    await page.locator("svg.bed-map").waitFor();
    assert.deepEqual(await violations(page), []);
    await close();
  });
}

test("without script a plot is moved by the form", async () => {
  const { page, close } = await open(bench, { javaScriptEnabled: false });
  await fill(page, "2027 plain");
  await page.getByRole("button", { name: "Lay it out" }).click();
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("button", { name: "What would it cost?" }).click();
  await page.waitForURL(/plot=.*to=/);
  await close();
});
