// From a file of sales to the next grow-out laid out, at the width of a desk and of a phone.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, overflow, start, violations, widths } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const file = (name, text) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

for (const width of widths) {
  test(`sales are taken in and withdrawn at ${width} pixels`, async () => {
    const { page, complaints, close } = await open(bench, { width });
    await page.goto("/sales");
    const text = `Date,Item,Qty\n2026-11-20,Post Mill tomato seeds,${width}\n2026-11-20,Post Mil,1\n2026-13-20,Post Mill,1\n`;
    await page.getByLabel("Files of sales").setInputFiles(file(`fair-${width}.csv`, text));
    await page.getByLabel("Whose sales they tell").fill(`Fair ${width}`);
    await page.getByRole("button", { name: "Take them in" }).click();
    await page.getByText(`sales of Fair ${width}`).waitFor();
    await page.getByText("nearest: Post Mill").waitFor();
    await page.getByText("Row 4, column Date").waitFor();
    assert.deepEqual(await violations(page), []);
    assert.ok((await overflow(page)) <= 0);
    await page.getByRole("link", { name: "All sales" }).click();
    const row = page.locator("tr", { hasText: `fair-${width}.csv` });
    await row.getByRole("button", { name: "Withdraw" }).click();
    await page.getByText("can be restored").waitFor();
    await row.getByRole("button", { name: "Restore" }).click();
    await row.getByRole("button", { name: "Withdraw" }).waitFor();
    // What is no table of sales is told so, and nothing of it is kept.
    await page.getByLabel("Files of sales").setInputFiles(file("list.csv", "Name,Colour\nMarl,red\n"));
    await page.getByRole("button", { name: "Take them in" }).click();
    await page.getByText("a column of days was not found").waitFor();
    assert.deepEqual(complaints, []);
    await close();
  });

  test(`the next grow-out is chosen and laid out at ${width} pixels`, async () => {
    const { page, complaints, close } = await open(bench, { width });
    const name = `2027 Trial ${width}`;
    await page.goto("/grow-outs/new");
    await page.getByLabel("Name of the grow-out").fill(name);
    await page.getByLabel("Or varieties by name, one a line").fill("Drip Stone\nMarl\nShot Tower\nTin Whistle");
    await page.getByLabel("Name", { exact: true }).first().fill("North");
    await page.getByLabel("Length").first().fill("120 ft");
    await page.getByLabel("Width").first().fill("4 ft");
    await page.getByRole("button", { name: "Lay it out" }).click();
    await page.getByRole("button", { name: "Keep it" }).click();
    await page.waitForURL(/did=/);

    await page.goto("/grow-outs");
    await page.getByRole("link", { name: "Choose what the next one should hold" }).click();
    await page.getByLabel("As it was laid out for").selectOption(name);
    await page.getByLabel("Season, the year of harvest").fill("2028");
    await page.getByText("Wishes and limits").click();
    await page.getByLabel("Must stand, one a line").fill("Drip Stone");
    await page.getByRole("button", { name: "Choose" }).click();
    await page.getByRole("heading", { name: "Season 2028: what to grow" }).waitFor();
    await page.getByRole("link", { name: "Drip Stone" }).first().waitFor();
    await page.getByText("A bed more").waitFor();
    assert.deepEqual(await violations(page), []);
    assert.ok((await overflow(page)) <= 0);
    await page.getByRole("button", { name: "Lay it out on this ground" }).click();
    await page.locator("svg.bed-map").waitFor();
    assert.equal(await page.getByLabel("Season, the year of harvest").inputValue(), "2028");

    await page.goto("/grow-outs/next?plots=4&must=Nobody");
    await page.locator(".notice", { hasText: "Nobody" }).waitFor();
    assert.deepEqual(complaints, []);
    await close();
  });
}
