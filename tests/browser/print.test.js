// What is printed: the proof sheet before the catalogue, the type chart as page and as poster, by keyboard and in
// every light.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { mkdir } from "node:fs/promises";
import { open, overflow, start, violations, widths } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const lights = [
  ["light", {}],
  ["dark", { colorScheme: "dark" }],
  ["forced-colours", { forcedColors: "active" }],
  ["contrast", { contrast: "more" }],
];

for (const [light, options] of lights) {
  test(`what is printed, in ${light}`, async () => {
    for (const width of widths) {
      const { page, close } = await open(bench, { width, ...options });
      for (const address of ["/print", "/print/proof", "/types"]) {
        await page.goto(address);
        assert.deepEqual(await violations(page), [], `${light} ${address}`);
        assert.ok((await overflow(page)) <= 0, `${address} at ${width} is wider than the window`);
        await shot(page, `${light}-${width}${address}`);
      }
      await close();
    }
  });
}

test("the proof sheet is printed by keyboard, and its marks lead to their varieties", async () => {
  const { page, close } = await open(bench);
  await page.goto("/print");
  const press = page.getByRole("button", { name: "Print the proof sheet" });
  await press.focus();
  await page.keyboard.press("Enter");
  await page.waitForURL(/printed=proof/);
  assert.match(await page.getByRole("status").textContent(), /The proof sheet is printed/);
  const answer = await page.request.get(await page.getByRole("link", { name: "proof.pdf" }).getAttribute("href"));
  assert.equal((await answer.body()).subarray(0, 4).toString(), "%PDF");
  await page.getByRole("link", { name: "Read it here" }).click();
  await page.locator("dl.proof dt a").first().click();
  await page.waitForURL(/\/variety\//);
  await close();
});

test("the type chart follows the guides, without script too", async () => {
  const { page, close } = await open(bench, { javaScriptEnabled: false });
  await page.goto("/guides");
  await page.getByRole("link", { name: /the type chart/ }).click();
  await page.waitForURL(/\/types$/);
  assert.equal(await page.locator("section.type").count(), 9 + 5 + 3);
  assert.equal(await page.locator("svg.plant").count(), 5);
  assert.ok((await page.locator("svg.span").count()) >= 9);
  await close();
});

/** Keeps a picture to look at where LOCULE_SHOTS names a folder. */
async function shot(page, name) {
  const folder = process.env.LOCULE_SHOTS;
  if (!folder) return;
  await mkdir(folder, { recursive: true });
  await page.screenshot({ path: `${folder}/${name.replace(/[^a-z0-9-]+/gi, "_")}.png`, fullPage: true });
}

test("the type chart and the question lead to each other", async () => {
  const { page, close } = await open(bench);
  await page.goto("/what");
  await page.getByRole("link", { name: "Tomato types" }).click();
  await page.waitForURL(/\/types$/);
  await page.getByRole("link", { name: "What is it?" }).click();
  await page.waitForURL(/\/what$/);
  await close();
});
