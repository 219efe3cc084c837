// Figures, printed and never asserted against a time: first load, key press to figures and the reckoning with the
// processor slowed four times, the size of what a tablet downloads.
//
// The time of a reckoning is the one the app itself leaves in the browser's timeline (device/stopwatch.rs).

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { existsSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { Desk, folder } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { author, fill, openShaft, pair, shaftPath, tapKind } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";
const APP = process.env.SHAFTBOOK_APP_FROM ?? "out/app";

let desk;
let tablet;

before(async () => {
  const notes = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  desk = await Desk.open({ place: folder("figures"), words: ["--shaft", SHAFT, "--from", "12:20", "--speed", "1", "--relive", ...notes] });
  tablet = await Tablet.on();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

function middle(values) {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

/** Presses Save in the page; the times until the figures are painted, and until none of them is being reckoned. */
function savedUntilShown() {
  const begun = performance.now();
  // A message posted in a frame is heard when that frame is painted, before anything the page put off until then.
  const afterFrame = (then) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = then;
    port2.postMessage(0);
  };
  const painted = (is) =>
    new Promise((resolve) => {
      const look = () => requestAnimationFrame(() => (is() ? afterFrame(() => resolve(performance.now() - begun)) : look()));
      look();
    });
  const figures = () => [...document.querySelectorAll(".shaft-figures .figure")];
  const there = () => figures().length > 0;
  const all = () => there() && !figures().some((one) => one.textContent.includes("being reckoned"));
  document.querySelector(".entry-save button[type=submit]").click();
  return Promise.all([painted(there), painted(all)]);
}

async function slowed(tablet, times) {
  const browser = await tablet.context.newCDPSession(tablet.page);
  await browser.send("Emulation.setCPUThrottlingRate", { rate: times });
}

test("first load", async () => {
  const begun = performance.now();
  await tablet.page.goto(desk.url);
  await tablet.page.locator("h1").first().waitFor();
  console.log(`first load to the first screen, from loopback: ${Math.round(performance.now() - begun)} ms`);
  const sent = await tablet.page.evaluate(() =>
    performance.getEntriesByType("resource").map((one) => ({ name: new URL(one.name).pathname, size: one.transferSize })),
  );
  const sum = (all) => Math.round(all.reduce((sum, one) => sum + one.size, 0) / 1000);
  console.log(`transferred for it: ${sum(sent)} kB`);
  for (const ending of ["wasm", "js", "css", "woff2"]) {
    console.log(`  of it .${ending}: ${sum(sent.filter((one) => one.name.endsWith(`.${ending}`)))} kB`);
  }
  assert.ok(sum(sent) > 100, "something was transferred");
  const names = readdirSync(APP, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  const files = names.map((one) => join(one.parentPath, one.name)).filter((name) => !/\.(br|gz)$/.test(name));
  const size = (name) => statSync(existsSync(`${name}.br`) ? `${name}.br` : name).size;
  console.log(`all of the app, kept for work without a connection, Brotli: ${sum(files.map((name) => ({ size: size(name) })))} kB`);
});

test("key press to figures, processor slowed four times", async () => {
  const { page } = tablet;
  await author(page, desk, "R. Quill");
  await pair(page, desk, "figures");
  await page.locator(".list-row").first().waitFor();
  await openShaft(page, desk, JOB, SHAFT);
  await page.locator(".shaft-figures .figure").first().waitFor();
  await slowed(tablet, 4);
  const times = [];
  const orders = [];
  for (let turn = 0; turn < 7; turn++) {
    await tapKind(page, JOB, SHAFT, "remark");
    await fill(page, "text", `turn ${turn}`);
    const [figures, order] = await page.evaluate(savedUntilShown);
    times.push(figures);
    orders.push(order);
  }
  const told = (all) => `median ${Math.round(middle([...all]))} ms of ${all.map(Math.round)}`;
  console.log(`Save pressed to the shaft's new figures on the screen, entry on the disk, 4 × slower: ${told(times)}`);
  console.log(`  to the order and the played rest of the pour beside them: ${told(orders)}`);
  await openShaft(page, desk, JOB, SHAFT);
  await tapKind(page, JOB, SHAFT, "concrete_sounded");
  const echo = await page.evaluate(
    () =>
      new Promise((resolve) => {
        const field = document.querySelector("[id^=field-points-0]");
        field.focus();
        const begun = performance.now();
        field.value = "12.5";
        field.dispatchEvent(new InputEvent("input", { bubbles: true }));
        requestAnimationFrame(() => requestAnimationFrame(() => resolve(performance.now() - begun)));
      }),
  );
  console.log(`key of the keypad to its echo, 4 × slower: ${Math.round(echo)} ms`);
  await slowed(tablet, 1);
  assert.equal(times.length, 7);
});

/** The times of a part of the work, as the app left them in the timeline while `rounds` was done, in milliseconds. */
async function measured(page, name, rounds) {
  await page.evaluate((wanted) => {
    globalThis.heard = [];
    globalThis.ear = new PerformanceObserver((list) => {
      globalThis.heard.push(...list.getEntries().filter((one) => one.name === wanted).map((one) => one.duration));
    });
    globalThis.ear.observe({ type: "measure" });
  }, name);
  await rounds();
  return page.evaluate(() => {
    const late = globalThis.ear.takeRecords();
    globalThis.ear.disconnect();
    return { heard: globalThis.heard, late: late.length };
  });
}

test("a full shaft assessed in the browser", async () => {
  const words = ["--shaft", "S-1", "--from", "18:00", "--speed", "1", "--relive", "benches/full-shaft/notes.toml"];
  const full = await Desk.open({ place: folder("full"), words });
  const other = await Tablet.on();
  try {
    const { page } = other;
    await page.goto(full.url);
    await author(page, full, "R. Quill");
    await pair(page, full, "full shaft");
    await page.locator(".list-row").first().waitFor();
    await openShaft(page, full, "bench", "S-1");
    await page.locator(".shaft-figures .figure").first().waitFor();
    const now = page.locator(`nav.tabs a[href="${shaftPath("bench", "S-1")}"]`);
    const list = page.locator(`nav.tabs a[href="${shaftPath("bench", "S-1")}/ready"]`);
    for (const slower of [1, 4]) {
      await slowed(other, slower);
      for (const part of ["assessment", "words", "drawing"]) {
        const { heard } = await measured(page, `shaftbook ${part}`, async () => {
          for (let round = 0; round < 10; round++) {
            await list.click();
            await page.waitForURL(/ready$/);
            await now.click();
            await page.locator(".shaft-figures .figure").first().waitFor();
          }
        });
        assert.ok(heard.length >= 10, `${part} was measured ${heard.length} times`);
        console.log(`${part} of a shaft with 505 entries, ${slower} × slower: median ${middle(heard).toFixed(1)} ms of ${heard.length}`);
      }
    }
    await slowed(other, 1);
  } finally {
    await other.off();
    await full.stop();
  }
});
