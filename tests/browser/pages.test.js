// Every page, at the width of a desk and of a phone: nothing that axe minds, nothing wider than the window,
// nothing that the browser complains of, and nothing that moves while it loads.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { mkdir } from "node:fs/promises";
import { open, overflow, start, violations, widths } from "./bench.js";

const pages = [
  "/", "/?contested=only", "/?q=red+slicr+under+8+oz", "/?q=nobody+at+all", "/?page=2", "/?view=table&sort=weight",
  "/bench", "/bench?shelves=stacked", "/variety/Drip%20Stone",
  "/variety/Drip%20Stone?records=fruit&page=2", "/grow-outs", "/grow-outs/new", "/grow-outs/next", "/grow-outs/next?plots=24&plants=6&season=2027&wish=Drip%20Stone", "/grow-outs/next?plots=none", "/sales", "/increase", "/increase?variety=Post%20Mill&packets=200", "/grow-outs/2026%20Home%20Garden", "/seed-room", "/seed-room/tests", "/seed-room/order", "/seed-room/order?wanted=Post+Mill%3D5&of=100+mg", "/seed-room/order?wanted=nobody%3D5", "/seed-room/kept", "/seed-room/rogues", "/seed-room/how-many", "/seed-room/how-many?share=0&plants=many", "/seed-room/new", "/lot/24-001", "/lot/26-008", "/advice", "/advice/questions", "/advice/questions?question=6&weather=Milwaukee+WI", "/advice?weather=Milwaukee+WI&bed-length=50+ft&bed-width=12+ft&years-in-ten=8&put-up-1-what=juice&put-up-1-class=paste,+plum&put-up-1-jars=7&put-up-1-days=2&altitude=700+ft", "/advice?weather=Milwaukee+WI&bed-length=3+ft&bed-width=2+ft&put-up-1-what=juice&put-up-1-class=paste&put-up-1-jars=70", "/advice?weather=nowhere", "/bring-in", "/photo", "/quarantine",
  "/quarantine/1", "/names", "/doubts", "/weather", "/history", "/history/1", "/print", "/print?packets=26-002%3D40&printed=labels&file=labels-2031-02-01-1.pdf", "/print/proof", "/types", "/what",
  "/what?weight=58+g&length=61+mm&width=38+mm&locules=2&colour=red&weight=2+oz&stem_ended=4", "/gaps",
  "/instead/Drip%20Stone", "/forecast", "/forecast?weather=Milwaukee+WI", "/forecast?weather=Daggett+CA&variety=Post+Mill&out=03-20", "/forecast?weather=nowhere", "/forecast?weather=Milwaukee+WI&method=beta&base=8", "/hindsight", "/emergence", "/emergence?soil=12.5+C", "/frost", "/frost?weather=Milwaukee+WI", "/frost?weather=nowhere", "/calendar", "/calendar?weather=Milwaukee+WI&year=2031", "/calendar?weather=garden%3AHome", "/ripening/Drip%20Stone", "/ripening/Post%20Mill", "/ripening/Post%20Mill?weather=Reidsville+NC&out=05-01", "/ripening/Post%20Mill?weather=Milwaukee+WI&method=double-sine&cut_off=vertical&ceiling=32", "/grow-outs/2026%20Home%20Trial", "/grow-outs/2026%20Home%20Trial/results", "/grow-outs/2026%20Home%20Garden/results",
  "/guides", "/guides/fruit", "/settings",
  "/variety/nobody-at-all",
];

let bench;
before(async () => (bench = await start()));
after(() => bench?.stop());

for (const width of widths) {
  test(`every page at ${width} pixels`, async (t) => {
    const { page, complaints, close } = await open(bench, { width });
    await page.addInitScript(() => {
      window.moved = 0;
      new PerformanceObserver((list) => {
        for (const shift of list.getEntries()) if (!shift.hadRecentInput) window.moved += shift.value;
      }).observe({ type: "layout-shift", buffered: true });
    });
    for (const address of pages) {
      await t.test(address, async () => {
        complaints.length = 0;
        let answer = await page.goto(address, { waitUntil: "load" });
        // A plan that is still looked for has its page asked again: what is looked at here is the plan.
        while (answer.headers().refresh) answer = await page.goto(address, { waitUntil: "load" });
        const missing = address === "/variety/nobody-at-all";
        assert.equal(answer.status(), missing ? 404 : 200);
        assert.ok((await page.evaluate(() => window.moved)) < 0.02, "something moved while the page loaded");
        await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
        assert.deepEqual(await violations(page), []);
        assert.ok((await overflow(page)) <= 0, `wider than the window by ${await overflow(page)}`);
        const own = complaints.filter((words) => !(missing && words.includes("404")));
        assert.deepEqual(own, []);
        await shot(page, `${width}${address}`);
      });
    }
    await close();
  });
}

const looks = [
  ["dark", { colorScheme: "dark" }],
  ["forced-colours", { forcedColors: "active" }],
  ["contrast", { contrast: "more" }],
];

for (const [look, options] of looks) {
  test(`the list and a variety in ${look}`, async () => {
    for (const width of widths) {
      const { page, close } = await open(bench, { width, ...options });
      for (const address of ["/?contested=only", "/?q=red+slicr+under+8+oz", "/?view=table", "/bench", "/variety/Drip%20Stone", "/quarantine/1"]) {
        await page.goto(address);
        assert.deepEqual(await violations(page), [], `${look} ${address}`);
        await shot(page, `${look}-${width}${address}`);
      }
      await close();
    }
  });
}

test("every page reads and works without script", async () => {
  const { page, close } = await open(bench, { javaScriptEnabled: false });
  await page.goto("/");
  await page.getByText("Choose instead").click();
  await page.locator('select[name="class"]').selectOption("pear");
  await page.getByRole("button", { name: "Show", exact: true }).click();
  await page.waitForURL(/class=pear/);
  assert.ok((await page.locator(".rows > li").count()) > 0);
  await close();
});

test("the first page is light", async () => {
  const { page, close } = await open(bench);
  let sent = 0;
  const session = await page.context().newCDPSession(page);
  await session.send("Network.enable");
  const kinds = new Map();
  session.on("Network.responseReceived", ({ requestId, type }) => kinds.set(requestId, type));
  session.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
    if (kinds.get(requestId) !== "Image") sent += encodedDataLength;
  });
  await page.goto("/", { waitUntil: "load" });
  assert.ok(sent > 1000 && sent < 100_000, `${sent} bytes`);
  await close();
});

/** Keeps a picture to look at where LOCULE_SHOTS names a folder. */
async function shot(page, name) {
  const folder = process.env.LOCULE_SHOTS;
  if (!folder) return;
  await mkdir(folder, { recursive: true });
  await page.screenshot({ path: `${folder}/${name.replace(/[^a-z0-9-]+/gi, "_")}.png` });
}
