// Advice asked one question at a time, at a phone's width, leads to the plan that all questions at once lead to.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, overflow, start, violations } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const question = (page, words) => page.getByRole("heading", { name: words }).waitFor();
const on = (page) => page.getByRole("button", { name: "On to the next" }).click();

test("from the first question to the plan, and back on the way", async () => {
  const { page, complaints, close } = await open(bench, { width: 360 });
  await page.goto("/advice");
  await page.getByRole("link", { name: "one at a time" }).click();

  await question(page, "Where is the garden?");
  await page.locator("select[name=weather]").selectOption("Milwaukee WI");
  await on(page);
  await question(page, "How large is the bed?");
  assert.deepEqual(await violations(page), []);
  await page.locator("[name=bed-length]").fill("50 ft");
  // The enter key goes on, and not back.
  await page.keyboard.press("Enter");
  await question(page, "Are there containers too?");
  await page.getByRole("button", { name: "Back" }).click();
  await question(page, "How large is the bed?");
  assert.equal(await page.locator("[name=bed-length]").inputValue(), "50 ft");
  for (const words of ["containers", "covers", "plants go out", "put up"]) {
    await on(page);
    await question(page, new RegExp(words));
    assert.equal(await overflow(page), 0, words);
  }
  await page.locator("[name=put-up-1-what]").selectOption("juice");
  await on(page);
  await page.locator("[name=altitude]").fill("700 ft");
  await on(page);
  await question(page, "What is eaten fresh?");
  await page.locator("[name=fresh-1-a-week]").fill("");
  await page.locator("[name=fresh-1-class]").fill("");
  await on(page);
  await question(page, /How sure/);
  await page.getByRole("button", { name: "Plan it" }).click();

  await page.getByRole("heading", { name: "The plan", exact: true }).waitFor();
  const asked = new URL(page.url()).searchParams;
  assert.deepEqual(
    ["weather", "bed-length", "put-up-1-what", "put-up-1-jars", "altitude"].map((name) => asked.get(name)),
    ["Milwaukee WI", "50 ft", "juice", "7", "700 ft"],
  );
  assert.match(await page.locator("main").innerText(), /7 quarts of juice from paste or plum/);
  assert.deepEqual(complaints, []);
  await close();
});
