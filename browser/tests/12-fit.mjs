// The screen of the shaft beside the hole, as the demonstration opens it: a tablet on its side with the banner on top,
// at the worst moments of the day. Whatever is looked at while concrete comes is there without scrolling and whole.

import assert from "node:assert/strict";
import { after, test } from "node:test";
import { Desk, folder } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { author, openShaft, pair } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";
const NOTES = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
/** The moments: when the line was jerked three things call; then a piece must wait; then the casing has to come out. */
const MOMENTS = { jerked: "11:59", waits: "12:55", casing: "13:36" };
/** What is asked for in every moment of the pour, by the beginning of its label. */
const POUR = ["Depth to concrete", "Embedment", "Lift at most", "This interval", "In all", /^Age of (what stiffens first|the oldest concrete)/];

const opened = [];

/** A tablet at a moment of the day; the clock stands as good as still. */
async function at(moment) {
  const words = ["--shaft", SHAFT, "--from", moment, "--speed", "1", "--relive", ...NOTES];
  const desk = await Desk.open({ place: folder("fit"), words });
  const tablet = await Tablet.on({ size: "tablet" });
  opened.push({ desk, tablet });
  await author(tablet.page, desk, "R. Quill");
  await pair(tablet.page, desk, "tablet that fits");
  await tablet.page.locator(".list-row").first().waitFor();
  await openShaft(tablet.page, desk, JOB, SHAFT);
  await tablet.page.locator(".banner-demonstration").waitFor();
  await tablet.page.locator(".attention-what").waitFor();
  await tablet.page.locator(".shaft-section svg").waitFor();
  return { desk, page: tablet.page, tablet };
}

after(async () => {
  for (const { desk, tablet } of opened) {
    await tablet.off();
    await desk.stop();
  }
});

/** What stands out of the screen, out of its own place, or is cut: one line each. */
function cut(page) {
  return page.evaluate(() => {
    const found = [];
    const told = (one) => `${one.className}: ${(one.innerText ?? one.textContent ?? "").slice(0, 40).replace(/\s+/g, " ")}`;
    const inside = (box, room) =>
      box.left >= room.left - 1 && box.right <= room.right + 1 && box.top >= room.top - 1 && box.bottom <= room.bottom + 1;
    const screen = { left: 0, top: 0, right: innerWidth, bottom: innerHeight };
    const parts = [".bar", ".banner", ".tabs", ".shaft-head", ".calls", ".clock", ".figure", ".shaft-section svg", ".shaft-keys .key:not(dialog *)"];
    const all = [...parts, ".shaft-next h2", ".todo-step:first-child"].flatMap((name) => [...document.querySelectorAll(name)]);
    for (const one of all) {
      const box = one.getBoundingClientRect();
      if (!inside(box, screen)) found.push(`off the screen: ${told(one)} ends at ${Math.round(box.bottom)}`);
      for (let place = one.parentElement; place; place = place.parentElement) {
        if (getComputedStyle(place).overflowY === "visible") continue;
        if (!inside(box, place.getBoundingClientRect())) found.push(`cut by ${place.className || place.tagName}: ${told(one)}`);
      }
    }
    const texts = ".figure-label, .figure-value, .figure-note, .clock-label, .clock-time, .todo-step:first-child .todo-what, .shaft-head h1, .shaft-stage";
    for (const one of document.querySelectorAll(texts)) {
      if (one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline") found.push(`too wide: ${told(one)}`);
      // Large figures stand out of their close-set line by a few pixels and are whole all the same.
      const line = one.className === "figure-value" ? 8 : 1;
      if (one.scrollHeight > one.clientHeight + line && getComputedStyle(one).display !== "inline") found.push(`too high: ${told(one)}`);
    }
    for (const place of document.querySelectorAll(".shaft-figures, body, html")) {
      if (place.scrollHeight > place.clientHeight + 1) found.push(`scrolls: ${place.className || place.tagName}`);
    }
    return found;
  });
}

/** The words of the call that the panel does not show whole. */
function shortened(page) {
  return page.locator(".calls .attention > p").evaluateAll((all) =>
    all.filter((one) => one.scrollHeight > one.clientHeight + 1).map((one) => one.textContent),
  );
}

const labels = (page) => page.locator(".shaft-figures .figure-label").allInnerTexts();

for (const [name, moment] of Object.entries(MOMENTS)) {
  for (const hand of ["right", "left"]) {
    test(`${name} at ${moment}, ${hand} hand: everything stands on the screen, and whole`, async () => {
      const { page, tablet } = hand === "right" ? await at(moment) : opened.at(-1).shown;
      opened.at(-1).shown = { page, tablet };
      await page.evaluate((hand) => document.documentElement.setAttribute("data-hand", hand), hand);
      await tablet.picture(`fit-${name}-${hand}`);
      const shown = await labels(page);
      const has = (wanted) => shown.some((label) => (wanted instanceof RegExp ? wanted.test(label) : label.startsWith(wanted)));
      assert.deepEqual(POUR.filter((wanted) => !has(wanted)), [], `of ${shown}`);
      if (name !== "casing") assert.ok(has("Order for"), `of ${shown}`);
      assert.ok(has("Chance to end in time"), `of ${shown}`);
      assert.deepEqual(await cut(page), []);
    });
  }

  test(`${name} at ${moment}: the key beside the call opens every word of every call`, async () => {
    const { page } = opened.at(-1).shown;
    const short = await shortened(page);
    const first = await page.locator(".attention-what").first().innerText();
    const key = page.locator(".calls-more");
    const box = await key.boundingBox();
    assert.ok(box.width >= 48 && box.height >= 48, `${box.width} × ${box.height}`);
    await key.click();
    const all = page.locator(".calls-all");
    await all.waitFor();
    const told = (await all.innerText()).replace(/\s+/g, " ");
    for (const words of [first, ...short]) assert.ok(told.includes(words.replace(/\s+/g, " ").trim()), `${words} in ${told}`);
    assert.ok((await all.locator("li").count()) >= 3, "three things call");
    await page.keyboard.press("Escape");
  });
}
