// The folder of web pages, opened as files: every page at the width of a desk and of a phone, search, sorting and "What
// is it?", and the scripts held to the program: the same requests read alike, the same fruit called alike.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { execFile } from "node:child_process";
import { readFileSync } from "node:fs";
import { mkdir, readdir, readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { once } from "node:events";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";
import { gzipSync } from "node:zlib";
import { locule as program, open, overflow, root, start, violations, widths } from "./bench.js";

let bench;
let folder;
before(async () => {
  bench = await start();
  folder = join(bench.folder, "pages");
  await promisify(execFile)(program, ["publish", folder, "--house", bench.house]);
  for (const name of ["tokens", "amounts", "reading", "telling", "finding", "what", "class_looks", "plant", "colour", "likeness", "bearing"]) {
    await import(file(`script/${name}.js`));
  }
  for (const name of ["list", "words", "rule", "alike", "gardens"]) await import(file(`data/${name}.js`));
});
after(() => bench?.stop());

/** The pages' policy lets nothing be fetched, not even by the checks. */
const NO_FETCH = { preload: false };

const file = (path) => pathToFileURL(join(folder, path)).href;

/** The requests of crate `wording`: text and what its writer means. */
function requests() {
  const text = readFileSync(join(root, "crates/wording/tests/requests.toml"), "utf8");
  const plain = (said) => (said.startsWith("'") ? said.slice(1, -1) : JSON.parse(said));
  const string = `"(?:[^"\\\\]|\\\\.)*"|'[^']*'`;
  return [...text.matchAll(new RegExp(`^\\s*\\[(${string}), (${string})\\],$`, "gm"))].map(([, ...both]) => both.map(plain));
}

const UNITS = { oz: 28.349523125, lb: 16 * 28.349523125, kg: 1000, in: 25.4, ft: 304.8, cm: 10, mm: 1, g: 1, d: 1, m: 1000, "": 1 };

function expected(meant, amounts) {
  const scaled = (kind, answer) => {
    if (!amounts.includes(kind)) return answer;
    const [, sign, values] = answer.match(/^([<>=~]*)(.*)$/);
    const value = (said) => said.replace(/^([\d.]+)([a-z]*)$/, (_, number, unit) => (Number(number) * UNITS[unit]).toFixed(2));
    return sign + values.split("..").map(value).join("..");
  };
  const lines = meant.split(";").map((clause) => clause.trim()).filter(Boolean).flatMap((clause) => {
    const [, not, kind, answers] = clause.match(/^(not )?(\S+) (.*)$/);
    return answers.split(", ").map((answer) => `${not ?? ""}${kind} ${scaled(kind, answer)}`);
  });
  return lines.sort();
}

function compact(wish, { AMOUNTS, CHOICES }) {
  const amount = ({ how, low, high }) => ({
    about: () => `~${low.toFixed(2)}`, least: () => `>=${low.toFixed(2)}`, most: () => `<=${high.toFixed(2)}`,
    between: () => `${low.toFixed(2)}..${high.toFixed(2)}`,
  })[how]();
  const choices = CHOICES.flatMap((kind) => [
    ...wish[kind].wanted.map((word) => `${kind} ${word}`), ...wish[kind].barred.map((word) => `not ${kind} ${word}`),
  ]);
  return [...choices, ...AMOUNTS.flatMap((kind) => wish[kind].map((own) => `${kind} ${amount(own)}`))].sort();
}

test("every request is read as the program reads it", () => {
  const { locule } = globalThis;
  const words = locule.vocabulary(locule.words.phrases, locule.words.limits, []);
  const all = requests();
  assert.ok(100 <= all.length, `only ${all.length} requests`);
  for (const [text, meant] of all) {
    assert.deepEqual(compact(locule.read(text, words).wish, locule), expected(meant, locule.AMOUNTS), text);
  }
});

/** Numbers that were sent with seven figures agree to six. */
function near(got, wanted, of) {
  assert.equal(got.length, wanted.length, of);
  got.forEach((value, at) => assert.ok(Math.abs(value - wanted[at]) < 2e-6, `${of}, ${at}: ${value} and ${wanted[at]}`));
}

test("a handful has the very shares and looks that the program gives it", () => {
  const { locule } = globalThis;
  const rule = { ...locule.rule.class, chances: locule.chances(locule.rule.class) };
  assert.ok(20 <= rule.trials.length);
  for (const { fruits, shares, looks } of rule.trials) {
    const of = JSON.stringify(fruits);
    assert.deepEqual(locule.classShares(fruits, rule)?.shares ?? [], shares, of);
    const own = locule.classLooks(fruits, rule);
    assert.deepEqual(own.map(({ look }) => look), looks.map(([look]) => look), of);
    near(own.map(({ expected }) => expected), looks.map(([, expected]) => expected), of);
  }
  assert.ok(rule.trials.some(({ looks }) => 3 <= looks.length), "no handful has looks to take");
});

/** A plant's answers as the form gives them: the stem's in two parts. */
function answered({ ended, growing, ...rest }) {
  if (ended) return { ...rest, stem: "ended", trusses: Number(ended) || null };
  return growing ? { ...rest, stem: "growing", trusses: Number(growing) } : rest;
}

test("a plant and a fruit's colours have the program's shares", () => {
  const { locule } = globalThis;
  const { plant, colour } = locule.rule;
  const habits = locule.list.habits.length;
  assert.ok(14 <= plant.trials.length && 100 <= colour.trials.length);
  for (const { answers, shares } of plant.trials) {
    near(locule.habitShares(answered(answers), plant, habits), shares, JSON.stringify(answers));
  }
  for (const { words, outside, pattern } of colour.trials) {
    const own = locule.colourShares(words, colour);
    near(own.outside, outside, JSON.stringify(words));
    near(own.pattern, pattern, JSON.stringify(words));
  }
});

test("a look is expected to lift a call, and most where it parts what is likely", () => {
  const { locule } = globalThis;
  const { plant, colour } = locule.rule;
  const habits = locule.list.habits.length;
  const now = (answers) => Math.max(...locule.habitShares(answers, plant, habits));
  for (const answers of [{}, { leaves: "2" }, { growth: "levels" }]) {
    const looks = locule.habitLooks(answers, plant, habits);
    assert.ok(0 < looks.length, JSON.stringify(answers));
    for (const { expected } of looks) assert.ok(now(answers) < expected && expected <= 1);
    assert.match(looks[0].words, /main stem/, "nothing tells a habit as the stem does");
  }
  assert.deepEqual(locule.habitLooks({ stem: "growing", trusses: 18, leaves: "3", dwarf: "no" }, plant, habits), []);
  const pink = locule.colourLooks({ outside: locule.rule.colour.colours.indexOf("pink") }, colour);
  assert.match(pink[0]?.words ?? "", /Peel it/, "the skin parts pink from red");
});

test("the nearest varieties lie as far as the program has them", () => {
  const { locule } = globalThis;
  assert.ok(20 <= locule.alike.trials.length);
  for (const [one, other, distance] of locule.alike.trials) {
    const { from } = locule.distances(locule.profile(locule.alike, one), locule.alike);
    near([from(other).distance], [distance], `${one} and ${other}`);
  }
});

/** Sums up how much moves in a page while nobody touches it. */
function watchMoves() {
  window.moved = 0;
  new PerformanceObserver((list) => {
    for (const shift of list.getEntries()) if (!shift.hadRecentInput) window.moved += shift.value;
  }).observe({ type: "layout-shift", buffered: true });
}

/** The pages that are looked at: the top ones, and of each folder the first and the last. */
async function looked() {
  const ends = async (inner) => {
    const names = (await readdir(join(folder, inner))).sort();
    return [names[0], names.at(-1)].map((name) => `${inner}/${name}`);
  };
  const inner = await Promise.all(["varieties", "classes", "habits"].map(ends));
  return ["index.html", "index.html#wish=early%20red%20paste", "names.html", "what-is-it.html", "for-your-garden.html", "side-by-side.html", "how-we-know.html",
    "varieties/drip-stone.html", ...inner.flat()];
}

for (const width of widths) {
  test(`every page from a file at ${width} pixels`, async (t) => {
    const { page, complaints, close } = await open(bench, { width });
    await page.addInitScript(watchMoves);
    for (const path of await looked()) {
      await t.test(path, async () => {
        complaints.length = 0;
        await page.goto("about:blank");
        await page.goto(pathToFileURL(folder).href + "/" + path, { waitUntil: "load" });
        // A wish in the address filters the list once it is there.
        const isStill = path.includes("#") || (await page.evaluate(() => window.moved)) < 0.02;
        assert.ok(isStill, "something moved while the page loaded");
        assert.deepEqual(await violations(page, NO_FETCH), []);
        assert.ok((await overflow(page)) <= 0, `wider than the window by ${await overflow(page)}`);
        assert.deepEqual(complaints, []);
        await shot(page, `folder-${width}-${path}`);
      });
    }
    await close();
  });
}

for (const [look, options] of [["dark", { colorScheme: "dark" }], ["contrast", { contrast: "more" }], ["forced", { forcedColors: "active" }]]) {
  test(`the pages in ${look}`, async () => {
    const { page, close } = await open(bench, options);
    for (const path of ["index.html", "varieties/drip-stone.html", "what-is-it.html"]) {
      await page.goto(file(path));
      assert.deepEqual(await violations(page, NO_FETCH), [], path);
      await shot(page, `folder-${look}-${path}`);
    }
    await close();
  });
}

test("search reads plain words, says how, and filters bench and table", async () => {
  const { page, complaints, close } = await open(bench);
  await page.goto(file("index.html"));
  const all = await page.locator("table.list tbody tr").count();
  await page.getByLabel("Find, in plain words").fill("indetermnate cherry, not red");
  await page.waitForFunction((all) => document.querySelectorAll("table.list tbody tr").length < all, all);
  const told = await page.locator("#read-as").innerText();
  assert.match(told, /indetermnate.*habit indeterminate \(mended\)/s);
  assert.match(told, /red.*not colour red/s);
  const found = page.locator("table.list tbody tr");
  const rows = await found.count();
  assert.ok(0 < rows);
  for (const row of await found.allInnerTexts()) assert.match(row, /cherry.*indeterminate/s);
  assert.equal(await page.locator(".bench li:visible").count(), rows);
  assert.match(await page.locator("#found").innerText(), new RegExp(`^${rows} of ${all} varieties$`));
  await page.keyboard.press("Enter");
  await page.waitForURL(/#wish=indetermnate%20cherry/);
  assert.deepEqual(complaints, []);
  await close();
});

test("the table sorts by the keyboard, what was not measured last", async () => {
  const { page, close } = await open(bench);
  await page.goto(file("index.html"));
  const weight = page.getByRole("button", { name: "Weight" });
  await weight.focus();
  await page.keyboard.press("Enter");
  const inOunces = (told) => parseFloat(told) * (told.endsWith("lb") ? 16 : 1);
  const ounces = async () => (await page.locator("table.list tbody td:nth-child(5)").allInnerTexts()).slice(0, 90).map(inOunces);
  const rising = await ounces();
  assert.deepEqual(rising, [...rising].sort((one, other) => one - other));
  await page.keyboard.press("Enter");
  assert.equal(await page.locator("th[data-sorts=weight]").getAttribute("aria-sort"), "descending");
  const falling = await ounces();
  assert.deepEqual(falling, [...falling].sort((one, other) => other - one));
  await close();
});

test("What is it? takes any unit, a handful, the plant and the colour, and tells what it cannot read", async () => {
  const { page, complaints, close } = await open(bench);
  await page.goto(file("what-is-it.html"));
  const answer = page.locator("#answer");
  const ask = () => page.getByRole("button", { name: "What is it?" }).click();
  const give = (name, value, fruit = 0) => page.locator("fieldset.fruit").nth(fruit).locator(`[name=${name}]`).fill(value);
  await ask();
  assert.match(await answer.innerText(), /Tell something of it/);
  await give("weight", "2 oz");
  await give("length", "6.1 cm");
  await give("width", "38 mm");
  await ask();
  assert.match(await answer.innerText(), /One fruit stands.*probably plum \(.* in 100\).*The guide's limits.*one more look.*Habit: not told.*Colour: not told.*nearest on the list/s);
  await page.getByRole("button", { name: "Another fruit" }).click();
  await give("weight", "66 g", 1);
  await page.getByLabel("These fruits come from").selectOption("a plant each");
  await page.getByLabel("Colour outside").selectOption("red");
  await page.getByLabel("Its main stem").selectOption("has ended in a truss");
  await page.getByLabel("After how many trusses").selectOption("4");
  await ask();
  assert.match(await answer.innerText(), /2 fruits stand.*Habit: .*probably determinate.*Colour: .*red.*same colour/s);
  assert.deepEqual(await violations(page, NO_FETCH), []);
  await shot(page, "folder-what-answered");
  await page.getByLabel("Its main stem").selectOption("still grows");
  await page.getByLabel("After how many trusses").selectOption("not counted");
  await ask();
  assert.match(await answer.innerText(), /Count the trusses/);
  await page.getByRole("button", { name: "Begin anew" }).click();
  assert.equal(await page.locator("fieldset.fruit").count(), 1);
  await give("weight", "2 bananas");
  await ask();
  assert.match(await answer.innerText(), /"2 bananas" cannot be read; write one number and one unit/);
  await give("weight", "900 g");
  await give("length", "6.1 cm");
  await give("width", "38 mm");
  await ask();
  assert.match(await answer.innerText(), /look at the units/);
  assert.deepEqual(complaints, []);
  await close();
});

test("plants for a wish are as many as the program says, in every region", async () => {
  const { locule } = globalThis;
  assert.ok(8 <= locule.gardens.regions.length);
  let answered = 0;
  for (const [name, address] of locule.gardens.regions) {
    await import(file(`data/gardens/${address}.js`));
    const { garden } = locule;
    const crops = (at) => locule.unpacked(garden.bearings[at], garden.weeks.length);
    for (const [entries, tens, days, weeks, years, plants] of garden.trials) {
      const [[first, second], want] = [entries.map(crops), { tens, days, weeks }];
      const one = second ? null : locule.ofOne(first, want, years);
      const found = second ? locule.ofTwo(first, second, want, years) : one === null ? null : [one];
      assert.deepEqual(found, plants, `${name}: ${JSON.stringify({ entries, want })}`);
      answered += plants === null ? 0 : 1;
    }
  }
  assert.ok(100 < answered, `only ${answered} wishes can be kept`);
});

test("For your garden answers for table and jars, keeps its answers in the address, and tells the cautions", async () => {
  const { page, complaints, close } = await open(bench, { width: 360 });
  await page.goto(file("for-your-garden.html"));
  const answer = page.locator("#answer");
  await answer.locator("table.answers").first().waitFor();
  assert.match(await answer.innerText(), /alone.*Plants.*Week by week.*Poor year.*sampled years/s);
  assert.equal(await page.getByLabel("Kitchen days").isVisible(), false);
  await page.getByLabel("The fruit is for").selectOption("Crushed, in quarts");
  await page.getByLabel("How much").selectOption({ index: 1 });
  await page.getByLabel("Kitchen days").selectOption("2");
  await answer.getByText("Before anything goes into jars").waitFor();
  assert.match(await answer.innerText(), /acid/i);
  assert.doesNotMatch(await answer.innerText(), /canner: \d|process\w* .*\d+ minutes/);
  const kept = page.url();
  const plants = await answer.locator("table.answers").first().innerText();
  await page.getByLabel("Weather like that of").selectOption({ index: 2 });
  await page.waitForFunction((before) => document.querySelector("#answer table.answers")?.innerText !== before, plants);
  await page.goto("about:blank");
  await page.goto(kept);
  await answer.getByText("Before anything goes into jars").waitFor();
  assert.equal(await answer.locator("table.answers").first().innerText(), plants);
  assert.deepEqual(await violations(page, NO_FETCH), []);
  assert.deepEqual(complaints, []);
  await shot(page, "folder-garden-answered");
  await close();
});

test("varieties stand side by side, up to four, and can be sent on", async () => {
  const { page, complaints, close } = await open(bench);
  await page.goto(file("varieties/drip-stone.html"));
  await page.getByRole("link", { name: "Side by side with others" }).click();
  const table = page.locator("table.beside");
  await table.waitFor();
  assert.match(await table.innerText(), /Drip Stone.*Fruit class.*in 100.*Weight.*Rests on/s);
  const columns = await table.locator("thead th").count();
  assert.ok(1 <= columns && columns <= 4);
  await page.getByLabel("Variety 4").fill("post mill");
  await page.keyboard.press("Tab");
  await table.getByText("Post Mill").first().waitFor();
  await page.getByLabel("Variety 1").fill("Nobody");
  await page.keyboard.press("Tab");
  await page.getByText("Nobody is not on the list").waitFor();
  assert.deepEqual(await violations(page, NO_FETCH), []);
  assert.deepEqual(complaints, []);
  await shot(page, "folder-beside");
  await close();
});

// At the width of a desk nearly the whole bench comes at once, and its portraits are told in docs/web-pages.md.
for (const [width, isCounted] of [[1280, (path) => !path.startsWith("pictures/")], [360, () => true]]) {
  test(`what the first page loads at ${width} pixels is light`, async () => {
    const server = slowly(folder).listen(0, "127.0.0.1");
    await once(server, "listening");
    const baseURL = `http://127.0.0.1:${server.address().port}`;
    const { page, close } = await open(bench, { width, baseURL });
    const loaded = new Set();
    page.on("requestfinished", (request) => loaded.add(new URL(request.url()).pathname.slice(1)));
    await page.goto("/index.html", { waitUntil: "networkidle" });
    const sizes = await Promise.all([...loaded].filter(isCounted).map(async (path) => gzipSync(await readFile(join(folder, path))).length));
    const sum = sizes.reduce((one, other) => one + other, 0);
    assert.ok(10 < loaded.size && sum < (width === 1280 ? 100_000 : 200_000), `${sum} bytes packed in ${loaded.size} files`);
    await close();
    server.closeAllConnections();
    server.close();
  });
}

/** Serves the folder, its pages in pieces as a slow line brings them. */
function slowly(folder) {
  const kinds = { html: "text/html", css: "text/css", js: "text/javascript", svg: "image/svg+xml" };
  return createServer(async (asked, answer) => {
    const path = new URL(asked.url, "http://x").pathname;
    const bytes = await readFile(join(folder, path)).catch(() => null);
    if (!bytes) return answer.writeHead(404).end();
    const kind = path.split(".").at(-1);
    answer.writeHead(200, { "content-type": kinds[kind] ?? "text/plain" });
    for (let at = 0; at < bytes.length; at += PIECE) {
      answer.write(bytes.subarray(at, at + PIECE));
      if (kind === "html") await new Promise((go) => setTimeout(go, 20));
    }
    answer.end();
  });
}

const PIECE = 4096;

for (const width of widths) {
  test(`nothing moves while the list comes in from a slow server at ${width} pixels`, async () => {
    const server = slowly(folder).listen(0, "127.0.0.1");
    await once(server, "listening");
    const { page, complaints, close } = await open(bench, { width, baseURL: `http://127.0.0.1:${server.address().port}` });
    await page.addInitScript(watchMoves);
    for (const path of ["/index.html", "/classes/beefsteak.html"]) {
      await page.goto(path, { waitUntil: "load" });
      assert.ok((await page.evaluate(() => window.moved)) < 0.001, `${path} moved by ${await page.evaluate(() => window.moved)}`);
    }
    assert.deepEqual(complaints, []);
    await close();
    server.closeAllConnections();
    server.close();
  });
}

test("without script the list, the index and every variety are there", async () => {
  const { page, close } = await open(bench, { javaScriptEnabled: false, width: 360 });
  await page.goto(file("index.html"));
  assert.equal(await page.locator("form:visible").count(), 0);
  assert.ok(100 < await page.locator("table.list tbody tr").count());
  await page.locator("table.list tbody a").first().click();
  await page.waitForURL(/varieties\/.*\.html$/);
  assert.ok(await page.getByRole("heading", { name: "What it rests on" }).isVisible());
  await close();
});

/** Keeps a picture to look at where LOCULE_SHOTS names a folder. */
async function shot(page, name) {
  const shots = process.env.LOCULE_SHOTS;
  if (!shots) return;
  await mkdir(shots, { recursive: true });
  await page.screenshot({ path: `${shots}/${name.replace(/[^a-z0-9-]+/gi, "_")}.png`, fullPage: true });
}
