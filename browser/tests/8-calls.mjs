// When something turns bad: the words on the screen say what happened and what to do now; the tone and the shake come
// once, not again after a reload, and not where they are switched off. Sound and shake of the browser are replaced by
// ones that count.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { author, enter, openShaft, pair } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";
/** The demo jerks the line out of its embedment at 11:58; twelve times faster than in life. */
const WORDS = ["--shaft", SHAFT, "--from", "11:50", "--speed", "12", "--relive"];
/** Longer than two looks of the app at the site clock. */
const TWO_LOOKS = 5000;

let desk;
let tablet;
let page;

before(async () => {
  const notes = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  desk = await Desk.open({ place: folder("calls"), words: [...WORDS, ...notes] });
  tablet = await Tablet.on();
  page = tablet.page;
  await page.addInitScript(() => {
    globalThis.heard = { tones: 0, shakes: 0 };
    const node = () => ({ connect: (to) => to, gain: { value: 1 }, frequency: { value: 0 } });
    globalThis.AudioContext = class {
      currentTime = 0;
      destination = node();
      resume = () => Promise.resolve();
      createGain = node;
      createOscillator = () => ({ ...node(), type: "", start: () => globalThis.heard.tones++, stop: () => {} });
    };
    Navigator.prototype.vibrate = () => (globalThis.heard.shakes++, true);
  });
  await author(page, desk, "R. Quill");
  await page.locator("label.choice", { hasText: "A sound" }).click();
  await page.waitForTimeout(400);
  await pair(page, desk, "tablet that rings");
  await page.locator(".list-row").first().waitFor();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

const heard = () => page.evaluate(() => ({ ...globalThis.heard }));
const called = () => page.locator(".attention").innerText();

/** Waits until it has rung as often as that. */
function rung(tones) {
  return page.waitForFunction((tones) => globalThis.heard.tones >= tones, tones, { timeout: 120_000 });
}

async function setting(words) {
  await page.goto(`${desk.url}/settings`);
  await page.locator("label.choice", { hasText: words }).click();
  await page.waitForTimeout(400);
}

test("what was bad already when the shaft is opened stands there and does not ring", async () => {
  await openShaft(page, desk, JOB, SHAFT);
  await page.locator(".shaft-figures .figure").first().waitFor();
  assert.deepEqual(await heard(), { tones: 0, shakes: 0 });
});

test("the line is jerked: the tablet rings and shakes once, and says what to do now", async () => {
  await page.locator(".attention", { hasText: /embedment/i }).waitFor({ timeout: 120_000 });
  await rung(2);
  const said = await page.locator(".attention-next").innerText();
  assert.match(said, /lower|raise|sound|line/i);
  await tablet.picture("calls-1-jerk");
  const { tones, shakes } = await heard();
  assert.equal(tones, 2 * shakes, "two tones to a shake");
});

test("after a reload the words stand there and nothing rings again", async () => {
  await page.reload();
  await page.locator(".attention-what").waitFor();
  await page.waitForTimeout(TWO_LOOKS);
  assert.deepEqual(await heard(), { tones: 0, shakes: 0 });
});

test("an own entry that turns something bad rings on the way back to the shaft, once", async () => {
  const before = await heard();
  await enter(page, JOB, SHAFT, "concrete_test", { ticket: "30414", slump: "3" });
  await page.locator(".attention", { hasText: /slump/i }).waitFor();
  await rung(before.tones + 2);
  await page.waitForTimeout(TWO_LOOKS);
  assert.deepEqual(await heard(), { tones: before.tones + 2, shakes: before.shakes + 1 });
  assert.match(await called(), /slump/i);
  await tablet.picture("calls-2-own-entry");
});

test("with sound and shake switched off only the words come", async () => {
  await setting("A sound");
  await setting("A vibration");
  await openShaft(page, desk, JOB, SHAFT);
  await page.locator(".shaft-figures .figure").first().waitFor();
  await enter(page, JOB, SHAFT, "concrete_test", { ticket: "30414", slump: "8", temperature: "97" });
  await page.locator(".attention", { hasText: /temperature/i }).waitFor();
  await page.waitForTimeout(TWO_LOOKS);
  assert.deepEqual(await heard(), { tones: 0, shakes: 0 });
});
