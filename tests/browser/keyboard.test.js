// The workbench by keyboard alone: the skip link, the find field, the list, a variety, a long table, a form.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, start } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const focused = (page) =>
  page.evaluate(() => {
    const { tagName, textContent, id, name } = document.activeElement;
    return { tag: tagName.toLowerCase(), words: textContent.trim(), id, name };
  });

/** Presses Tab until what has the focus is wanted, and tells how often; fails where it is never reached. */
async function tabTo(page, wanted, most = 60) {
  for (let pressed = 1; pressed <= most; pressed += 1) {
    await page.keyboard.press("Tab");
    if (wanted(await focused(page))) return pressed;
  }
  return assert.fail(`never reached in ${most} presses; at ${JSON.stringify(await focused(page))}`);
}

test("from the door to a variety and its records", async () => {
  const { page, close } = await open(bench, { reducedMotion: "reduce" });
  await page.goto("/");
  await page.keyboard.press("Tab");
  assert.equal((await focused(page)).words, "Skip to the content");
  assert.ok(await page.evaluate(() => document.activeElement.getBoundingClientRect().top >= 0), "the skip link shows");
  await page.keyboard.press("Enter");
  assert.equal((await focused(page)).id, "content");

  await page.keyboard.press("/");
  assert.equal((await focused(page)).id, "find");
  await page.keyboard.type("drip");
  await page.keyboard.press("Enter");
  await page.waitForURL(/q=drip/);
  await tabTo(page, ({ words }) => words === "Drip Stone");
  await page.keyboard.press("Enter");
  await page.waitForURL(/variety/);
  assert.equal(await page.locator("h1").innerText(), "Drip Stone");

  await tabTo(page, ({ name }) => name === "record", 120);
  await page.keyboard.press("Space");
  assert.equal(await page.evaluate(() => document.activeElement.checked), true);
  await close();
});

test("a slash is a letter where somebody writes", async () => {
  const { page, close } = await open(bench);
  await page.goto("/settings");
  await page.getByLabel("Who keeps the notes").fill("");
  await page.keyboard.type("a/b");
  assert.equal(await page.getByLabel("Who keeps the notes").inputValue(), "a/b");
  await close();
});

test("whatever takes the focus shows it", async () => {
  const { page, close } = await open(bench);
  for (const address of ["/", "/bench", "/quarantine/1", "/doubts", "/guides/fruit"]) {
    await page.goto(address);
    for (let pressed = 0; pressed < 25; pressed += 1) {
      await page.keyboard.press("Tab");
      const shows = await page.evaluate(() => {
        const at = document.activeElement;
        const reach = at.querySelector?.(".reach");
        const ring = getComputedStyle(at).outlineStyle !== "none";
        return at === document.body || ring || (reach && getComputedStyle(reach).stroke !== "none");
      });
      assert.ok(shows, `${address}: ${JSON.stringify(await focused(page))}`);
    }
  }
  await close();
});

test("a quarantined row is mended by keyboard", async () => {
  const { page, close } = await open(bench);
  await page.goto("/quarantine");
  await tabTo(page, ({ words }) => /^Mend \d+$/.test(words));
  await page.keyboard.press("Enter");
  await page.waitForURL(/quarantine\/\d+/);
  await tabTo(page, ({ words }) => words === "Take the row");
  await page.keyboard.press("Enter");
  await page.getByRole("alert").waitFor();
  await close();
});
