// A guide is edited: what would move is shown while the writing rests, by script or by the button.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, overflow, start, violations, widths } from "./bench.js";

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

const SMALL_ENDS = /(\[border\.small-ends\]\s+measure = "weight"\s+at = )"1 oz"/;

/** The guide's text with cherries up to 1.2 oz. */
const larger = async (text) => {
  const before = await text.inputValue();
  assert.match(before, SMALL_ENDS);
  return before.replace(SMALL_ENDS, '$1"1.2 oz"');
};

for (const width of widths) {
  test(`what would move is shown while it is written at ${width} pixels`, async () => {
    const { page, complaints, close } = await open(bench, { width });
    await page.goto("/guides/fruit");
    const text = page.getByLabel("Its text");
    await text.fill(await larger(text));
    await page.locator("#preview").getByText(/calls? moves?\. Nothing is accepted yet/).waitFor();
    assert.match(await page.locator("#preview").innerText(), /cherry.*saladette/s);
    assert.deepEqual(await violations(page), []);
    assert.ok((await overflow(page)) <= 0);
    await text.fill("[[[");
    await page.locator("#preview .fault").waitFor();
    assert.match(await page.locator("#preview").innerText(), /line 1/);
    // What cannot be read is answered as a fault, which the browser notes.
    assert.deepEqual(complaints.filter((one) => !/400/.test(one)), []);
    await close();
  });
}

test("without script the button shows the same", async () => {
  const { page, close } = await open(bench, { javaScriptEnabled: false });
  await page.goto("/guides/fruit");
  const text = page.getByLabel("Its text");
  await text.fill(await larger(text));
  await page.getByRole("button", { name: "See what would move" }).click();
  await page.locator("#preview").getByText(/calls? moves?\. Nothing is accepted yet/).waitFor();
  await close();
});
