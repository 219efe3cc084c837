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

/** A tablet at a moment of the day, or a phone; the clock stands as good as still. */
async function at(moment, size = "tablet") {
  const words = ["--shaft", SHAFT, "--from", moment, "--speed", "1", "--relive", ...NOTES];
  const desk = await Desk.open({ place: folder("fit"), words });
  const tablet = await Tablet.on({ size });
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

/** What of the phone is seen without scrolling, above the keys. */
function onPhone(page) {
  return page.evaluate(() => {
    const found = [];
    const keys = document.querySelector(".shaft-keys").getBoundingClientRect();
    const seen = (one, name) => {
      const { top, bottom } = one.getBoundingClientRect();
      if (top < 0 || bottom > keys.top) found.push(`${name} ends at ${Math.round(bottom)}, the keys begin at ${Math.round(keys.top)}`);
    };
    for (const name of ["Depth to concrete", "Embedment"]) {
      const figure = [...document.querySelectorAll(".figure")].find((one) => one.innerText.startsWith(name));
      for (const part of figure.querySelectorAll(".figure-label, .figure-value")) seen(part, `${name}: ${part.className}`);
    }
    const now = document.querySelector(".attention-next");
    seen(now, "what to do now");
    if (now.scrollHeight > now.clientHeight + 1) found.push("what to do now is shortened");
    const grid = document.querySelector(".shaft-keys .keys").getBoundingClientRect();
    for (const key of document.querySelectorAll(".shaft-keys > .keys > .key")) {
      const { top, height } = key.getBoundingClientRect();
      const part = Math.min(1, (grid.bottom - top) / height);
      if (part > 0 && part < 0.4) found.push(`${key.innerText}: a sliver of ${Math.round(part * height)} px`);
    }
    return found;
  });
}

test("on a phone with a call showing, what to do now, depth and embedment are seen during the pour", async () => {
  const { page, tablet } = await at(MOMENTS.jerked, "phone");
  await page.locator(".shaft-figures .figure").first().waitFor();
  await tablet.picture("fit-phone");
  assert.deepEqual(await onPhone(page), []);
  await page.locator(".calls-more").click();
  await page.locator(".calls-all li").first().waitFor();
  await tablet.picture("fit-phone-calls");
  await page.keyboard.press("Escape");
});

test("on a phone the strip of pages shows the one that is open, and the page stays where it is", async () => {
  const { tablet } = opened.at(-1);
  const { page } = tablet;
  for (const name of ["Sheet", "Log", "Now"]) {
    await page.locator("nav.tabs a", { hasText: name }).click();
    const active = page.locator('nav.tabs a[aria-current="page"]', { hasText: name });
    await active.waitFor();
    await page.waitForTimeout(300);
    const { left, right } = await active.evaluate((one) => one.getBoundingClientRect());
    assert.ok(left >= 0 && right <= 390, `${name} from ${left} to ${right}`);
    assert.equal(await page.evaluate(() => scrollX + scrollY), 0);
  }
  await tablet.picture("fit-phone-tabs");
});
