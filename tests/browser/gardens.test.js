// Frost and the calendar of a garden: in every light, by keyboard, and what can be taken along.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { mkdir } from "node:fs/promises";
import { open, overflow, start, violations, widths } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const lights = [
  ["dark", { colorScheme: "dark" }],
  ["forced-colours", { forcedColors: "active" }],
  ["contrast", { contrast: "more" }],
];

for (const [light, options] of lights) {
  test(`frost, calendar and curve, in ${light}`, async () => {
    for (const width of widths) {
      const { page, close } = await open(bench, { width, ...options });
      for (const address of ["/frost?weather=Milwaukee+WI", "/calendar?weather=Milwaukee+WI&year=2031", "/ripening/Post%20Mill"]) {
        await page.goto(address);
        assert.deepEqual(await violations(page), [], `${light} ${address}`);
        assert.ok((await overflow(page)) <= 0, `${address} at ${width} is wider than the window`);
        await shot(page, `${light}-${width}${address}`);
      }
      await close();
    }
  });
}

test("frost is asked by keyboard, and the drawing says in words what it shows", async () => {
  const { page, close } = await open(bench);
  await page.goto("/frost");
  await page.getByLabel("Weather of").selectOption("Milwaukee WI");
  await page.getByRole("button", { name: "Show" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForURL(/weather=Milwaukee/);
  const drawn = page.getByRole("img", { name: /Last of spring on or after/ });
  assert.equal(await drawn.locator("visible=true").count(), 1);
  await page.getByText("The years as a table").focus();
  await page.keyboard.press("Enter");
  await page.getByRole("table", { name: "Frosts of every year" }).waitFor();
  await close();
});

test("a garden's days are taken along, and its season printed", async () => {
  const { page, close } = await open(bench);
  await page.goto("/calendar?weather=Milwaukee+WI&year=2031");
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "calendar.ics" }).click(),
  ]);
  assert.equal(file.suggestedFilename(), "calendar.ics");
  const [sheet] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Print the season sheet" }).press("Enter"),
  ]);
  assert.equal(sheet.suggestedFilename(), "season-milwaukee-wi-2031.pdf");
  await close();
});

/** Keeps a picture to look at where LOCULE_SHOTS names a folder. */
async function shot(page, name) {
  const folder = process.env.LOCULE_SHOTS;
  if (!folder) return;
  await mkdir(folder, { recursive: true });
  await page.screenshot({ path: `${folder}/${name.replace(/[^a-z0-9-]+/gi, "_")}.png`, fullPage: true });
}
