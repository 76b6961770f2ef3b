// A workbench on a freshly made demo house, and a browser that watches it. Started once for a test file.

import { spawn, execFile } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { promisify } from "node:util";
import { chromium } from "playwright-core";

/** The top of the tree. */
export const root = resolve(import.meta.dirname, "../..");
/** The program as it was built. */
export const locule = process.env.LOCULE_PROGRAM ?? join(root, "target/release/locule");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const flags =
  "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking " +
  "--disable-component-update --disable-sync";

/** Widths that every page is looked at: a desk and a phone. */
export const widths = [1280, 360];

/** Makes the demo house in a folder of its own, serves it, and opens a browser. */
export async function start() {
  const folder = await mkdtemp(join(tmpdir(), "locule-browser-"));
  const house = join(folder, "house");
  await promisify(execFile)(locule, ["demo", "--no-serve", "--in", house], { cwd: root, maxBuffer: 1 << 26 });
  const server = spawn(locule, ["workbench", "--house", house, "--port", "0"], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await printedAddress(server);
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: flags.split(" ") });
  const stop = async () => {
    await browser.close();
    server.kill();
    await rm(folder, { recursive: true, force: true });
  };
  return { address, browser, folder, house, stop };
}

function printedAddress(server) {
  return new Promise((found, failed) => {
    let printed = "";
    server.stdout.on("data", (piece) => {
      printed += piece;
      const address = printed.match(/http:\/\/\S+/);
      if (address) found(address[0].replace(/\/$/, ""));
    });
    server.on("exit", (code) => failed(new Error(`the workbench ended with ${code}: ${printed}`)));
  });
}

/** A page of a given width that notes every complaint of the browser: errors, refused loads, broken scripts. */
export async function open(bench, options = {}) {
  const { width = 1280, ...rest } = options;
  const context = await bench.browser.newContext({ viewport: { width, height: 900 }, baseURL: bench.address, ...rest });
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (message) => ["error", "warning"].includes(message.type()) && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("requestfailed", (request) => {
    // What is still loading when the page is left is broken off, and that is no fault.
    const why = request.failure()?.errorText;
    if (why !== "net::ERR_ABORTED") complaints.push(`${request.url()} ${why}`);
  });
  return { page, complaints, close: () => context.close() };
}

/** What axe finds against the page, one line each. */
export async function violations(page, options = {}) {
  await page.evaluate(axe);
  const found = await page.evaluate((options) => window.axe.run(document, { resultTypes: ["violations"], ...options }), options);
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`);
}

/** How many pixels the page is wider than its window. */
export function overflow(page) {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}
