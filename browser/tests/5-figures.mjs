// Figures, printed and never asserted against a time: first load, key press to figures and the reckoning with the
// processor slowed four times, the size of what a tablet downloads.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { readdirSync, statSync } from "node:fs";
import { Desk, folder } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { author, fill, openShaft, pair, tapKind } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";

let desk;
let tablet;

before(async () => {
  const notes = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  desk = await Desk.open({ place: folder("figures"), words: ["--shaft", SHAFT, "--from", "13:40", "--speed", "1", "--relive", ...notes] });
  tablet = await Tablet.on();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

function middle(values) {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

async function slowed(times) {
  const browser = await tablet.context.newCDPSession(tablet.page);
  await browser.send("Emulation.setCPUThrottlingRate", { rate: times });
}

test("first load", async () => {
  const begun = performance.now();
  await tablet.page.goto(desk.url);
  await tablet.page.locator("h1").first().waitFor();
  console.log(`first load to the first screen, from loopback: ${Math.round(performance.now() - begun)} ms`);
  const size = await tablet.page.evaluate(() =>
    performance.getEntriesByType("resource").reduce((sum, one) => sum + one.transferSize, 0),
  );
  console.log(`transferred for it: ${Math.round(size / 1000)} kB`);
  assert.ok(size > 100_000, "something was transferred");
  const small = readdirSync("out/app", { recursive: true }).filter((name) => /\.(js|wasm|css|html|ttf)\.br$/.test(name));
  const sum = small.reduce((all, name) => all + statSync(`out/app/${name}`).size, 0);
  console.log(`all of the app, Brotli: ${Math.round(sum / 1000)} kB`);
});

test("key press to figures, processor slowed four times", async () => {
  const { page } = tablet;
  await author(page, desk, "R. Quill");
  await pair(page, desk, "figures");
  await page.locator(".list-row").first().waitFor();
  await openShaft(page, desk, JOB, SHAFT);
  await page.locator(".shaft-figures .figure").first().waitFor();
  await slowed(4);
  const times = [];
  for (let turn = 0; turn < 5; turn++) {
    await tapKind(page, JOB, SHAFT, "remark");
    await fill(page, "text", `turn ${turn}`);
    times.push(
      await page.evaluate(
        () =>
          new Promise((resolve) => {
            const begun = performance.now();
            const look = () => {
              if (document.querySelector(".shaft-figures .figure")) requestAnimationFrame(() => resolve(performance.now() - begun));
              else requestAnimationFrame(look);
            };
            document.querySelector(".entry-save button[type=submit]").click();
            look();
          }),
      ),
    );
  }
  console.log(`Save pressed to the shaft's new figures on the screen, entry on the disk, 4 × slower: median ${Math.round(middle(times))} ms of ${times.map(Math.round)}`);
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
  await slowed(1);
  assert.equal(times.length, 5);
});
