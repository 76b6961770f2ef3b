// The list in a browser: plain words, the keys through its rows, the table's headings, and files to take along.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { readFile } from "node:fs/promises";
import { open, start } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const words = (page) => page.evaluate(() => document.activeElement.textContent.trim());

test("plain words are read, shown and mended", async () => {
  const { page, close } = await open(bench);
  await page.goto("/");
  await page.keyboard.press("/");
  await page.keyboard.type("red slicr under 8 oz");
  await page.keyboard.press("Enter");
  await page.waitForURL(/q=red/);
  const reading = page.getByRole("region", { name: "Read as" });
  assert.match(await reading.innerText(), /colour red/);
  assert.match(await reading.innerText(), /fruit class slicer.*taken for/s);
  assert.ok((await page.locator(".rows > li").count()) > 0);
  for (const row of await page.locator(".rows > li").all()) assert.match(await row.innerText(), /slicer/);
  await close();
});

test("where nothing fits, the want in the way is told", async () => {
  const { page, close } = await open(bench);
  await page.goto("/?q=currant+over+2+lb");
  assert.match(await page.locator("main").innerText(), /No variety fits/);
  assert.ok((await page.locator(".to-drop li").count()) >= 1);
  await close();
});

test("j and k go through the rows, and the arrows once a row has the focus", async () => {
  const { page, close } = await open(bench);
  for (const address of ["/", "/?view=table"]) {
    await page.goto(address);
    const names = await page.locator(".rows h3 a, table.list tbody th a").allInnerTexts();
    await page.keyboard.press("j");
    assert.equal(await words(page), names[0]);
    await page.keyboard.press("j");
    await page.keyboard.press("ArrowDown");
    assert.equal(await words(page), names[2]);
    await page.keyboard.press("k");
    await page.keyboard.press("ArrowUp");
    assert.equal(await words(page), names[0]);
    await page.keyboard.press("/");
    await page.keyboard.type("jk");
    assert.equal(await page.locator("#find").inputValue(), "jk", "letters are letters where somebody writes");
  }
  await close();
});

test("the arrows scroll while no row has the focus", async () => {
  const { page, close } = await open(bench, { reducedMotion: "reduce" });
  await page.goto("/");
  await page.keyboard.press("ArrowDown");
  assert.equal(await page.evaluate(() => document.activeElement.tagName), "BODY");
  await close();
});

test("the table is sorted by its headings, both ways", async () => {
  const { page, close } = await open(bench);
  await page.goto("/?view=table");
  await page.getByRole("link", { name: "Weight" }).click();
  await page.waitForURL(/sort=weight/);
  const first = await page.locator("table.list tbody th").first().innerText();
  await page.getByRole("link", { name: "Weight" }).click();
  await page.waitForURL(/way=down/);
  assert.notEqual(await page.locator("table.list tbody th").first().innerText(), first);
  assert.equal(await page.locator("th[aria-sort=descending]").innerText(), "Weight");
  await close();
});

test("the list is taken along as a file", async () => {
  const { page, close } = await open(bench);
  await page.goto("/?q=cherry");
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("link", { name: "list.csv" }).click()]);
  const text = await readFile(await download.path(), "utf8");
  assert.equal(text.trim().split("\r\n").length - 1, await page.locator(".rows > li").count());
  await close();
});
