// Left hand, no hand on the glass at all, and a time set back.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, fill, openShaft, pair, save, shaftPath, tapKind } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-1";

let desk;
let tablet;
let page;

before(async () => {
  const place = folder("hands");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
  await author(page, desk, "R. Quill");
  await pair(page, desk, "tablet 1");
  await page.locator(".list-row").first().waitFor();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** Where the middle of an element stands, from the left. */
async function middle(selector) {
  const box = await page.locator(selector).first().boundingBox();
  return box.x + box.width / 2;
}

/** Presses Tab until this has the focus, as somebody without a mouse does. */
async function tabTo(selector, most = 120) {
  for (let press = 0; press < most; press++) {
    const there = await page.evaluate((selector) => document.activeElement?.matches(selector) ?? false, selector);
    if (there) return press;
    await page.keyboard.press("Tab");
  }
  throw new Error(`${most} presses of Tab do not reach ${selector} at ${page.url()}`);
}

test("the keys stand on the side of the hand that taps, on the shaft and beside a form", async () => {
  for (const [hand, sign] of [["Left hand", -1], ["Right hand", 1]]) {
    await page.goto(`${desk.url}/settings`);
    await page.locator("label.choice", { hasText: hand }).click();
    await page.waitForTimeout(400);
    await openShaft(page, desk, JOB, SHAFT);
    const apart = (await middle(".shaft-keys")) - (await middle(".shaft-section"));
    assert.ok(apart * sign > 200, `${hand}: keys ${apart} px right of the section`);
    await tablet.picture(`hands-1-${hand.split(" ")[0].toLowerCase()}-shaft`);
    await tapKind(page, JOB, SHAFT, "fluid_level");
    await page.locator("#field-depth").focus();
    await page.locator(".keypad").waitFor();
    const beside = (await middle(".keypad")) - (await middle(".entry-form"));
    assert.ok(beside * sign > 200, `${hand}: pad ${beside} px right of the form`);
    await tablet.picture(`hands-2-${hand.split(" ")[0].toLowerCase()}-form`);
  }
});

test("from the jobs to a saved sounding by the keyboard alone, digits from the pad by arrows", async () => {
  await page.goto(desk.url);
  await page.locator(".list-row").first().waitFor();
  await tabTo(`a[href="/job/${JOB}"]`);
  await page.keyboard.press("Enter");
  await page.waitForURL(`${desk.url}/job/${JOB}`);
  await page.locator(`a[href="${shaftPath(JOB, SHAFT)}"]`).first().waitFor();
  await tabTo(`a[href="${shaftPath(JOB, SHAFT)}"]`);
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { level: 1 }).filter({ hasText: SHAFT }).waitFor();
  await tabTo(".shaft-keys a, .shaft-keys button");
  const here = () => page.evaluate(() => document.activeElement.textContent.trim());
  for (let step = 0; (await here()) !== "All entries"; step++) {
    assert.ok(step < 40, `arrows do not reach all entries: ${await here()}`);
    await page.keyboard.press("ArrowDown");
  }
  await page.keyboard.press("Enter");
  const form = `a[href="${shaftPath(JOB, SHAFT)}/enter/fluid_level"]`;
  await page.locator(form).locator("visible=true").first().waitFor();
  await tabTo(form, 200);
  await page.keyboard.press("Enter");
  await page.locator("form.entry").waitFor();
  await tabTo("#field-depth");
  await page.keyboard.press("ArrowDown");
  const pressed = async (face) => {
    for (let step = 0; step < 20; step++) {
      const here = await page.evaluate(() => document.activeElement.textContent.trim());
      if (here === face) return page.keyboard.press("Enter");
      const to = await page.evaluate((face) => {
        const middle = (key) => (({ x, y, width, height }) => [x + width / 2, y + height / 2])(key.getBoundingClientRect());
        const goal = [...document.querySelectorAll(".keypad-keys button")].find((key) => key.textContent.trim() === face);
        const [[x, y], [gx, gy]] = [middle(document.activeElement), middle(goal)];
        if (Math.abs(gy - y) > 5) return gy > y ? "ArrowDown" : "ArrowUp";
        return gx > x ? "ArrowRight" : "ArrowLeft";
      }, face);
      await page.keyboard.press(to);
    }
    throw new Error(`the arrows do not reach ${face}`);
  };
  for (const face of ["4", ".", "5"]) await pressed(face);
  assert.equal(await page.locator("#field-depth").inputValue(), "4.5");
  await tablet.picture("hands-3-keyboard");
  await page.locator("#field-depth").focus();
  await page.keyboard.press("Enter");
  await page.waitForURL(`${desk.url}${shaftPath(JOB, SHAFT)}`);
  await page.goto(`${desk.url}${shaftPath(JOB, SHAFT)}/log`);
  await page.locator(".log-row", { hasText: "4.5 ft" }).first().waitFor();
});

test("escape puts the pad away, then leaves the form, and what was typed is offered again", async () => {
  await page.goto(`${desk.url}${shaftPath(JOB, SHAFT)}/enter/fluid_level`);
  await page.locator("form.entry").waitFor();
  await tabTo("#field-depth");
  await page.keyboard.type("7.2");
  await page.keyboard.press("Escape");
  await page.locator(".keypad").waitFor({ state: "detached" });
  assert.ok(await page.evaluate(() => document.activeElement.id === "field-depth"), "the focus stays in the field");
  await page.waitForTimeout(400);
  await page.keyboard.press("Escape");
  await page.waitForURL(`${desk.url}${shaftPath(JOB, SHAFT)}`);
  await page.goto(`${desk.url}${shaftPath(JOB, SHAFT)}/enter/fluid_level`);
  await page.getByRole("button", { name: /begin anew/i }).click();
  await page.locator("form.entry").waitFor();
});

test("a time set back makes the entry late, and it says so before saving and in the log", async () => {
  await openShaft(page, desk, JOB, SHAFT);
  await tapKind(page, JOB, SHAFT, "remark");
  await fill(page, "text", "water in the ditch rose");
  for (let step = 0; step < 8; step++) await page.getByRole("button", { name: "five minutes earlier" }).click();
  const said = page.locator(".stamp-late");
  await said.filter({ hasText: /late by 4\d min, and marked so/ }).waitFor();
  await tablet.picture("hands-4-late");
  await save(page);
  await page.goto(`${desk.url}${shaftPath(JOB, SHAFT)}/log`);
  const row = page.locator(".log-row", { hasText: "water in the ditch rose" });
  await row.locator("text=/late:.*after it was seen/").waitFor();
  await allSent(page);
  const lines = shaftbook("export", "record", "--job", desk.place).split("\n");
  const entry = JSON.parse(lines.find((line) => line.includes("water in the ditch rose")));
  assert.ok(new Date(entry.entered_at) - new Date(entry.observed_at) > 39 * 60_000, JSON.stringify(entry));
});

test("a banner that comes while a finger is down waits until it is lifted", async () => {
  const notes = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  const words = ["--shaft", "S-2", "--from", "11:50", "--speed", "1", "--relive", ...notes];
  const demonstration = await Desk.open({ place: folder("hands-banner"), words });
  const other = await Tablet.on({ serviceWorkers: "block" });
  try {
    let answer;
    const pressed = new Promise((resolve) => (answer = resolve));
    await other.page.route("**/api/v1/hello", async (route) => {
      await pressed;
      await route.continue();
    });
    await other.page.goto(`${demonstration.url}/help`);
    const back = other.page.locator("a.back");
    const banner = other.page.locator(".banner-demonstration");
    const box = await back.boundingBox();
    await other.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await other.page.mouse.down();
    const heard = other.page.waitForResponse("**/api/v1/hello");
    answer();
    await (await heard).finished();
    await other.page.waitForTimeout(300);
    assert.equal(await banner.count(), 0, "nothing moves under the finger");
    assert.deepEqual(await back.boundingBox(), box);
    await other.page.mouse.up();
    await other.page.waitForURL(`${demonstration.url}/`);
    await banner.waitFor();
  } finally {
    await other.off();
    await demonstration.stop();
  }
});

test("a key under a finger stays the key it was, though another tab writes", async () => {
  await openShaft(page, desk, JOB, SHAFT);
  const first = page.locator(".shaft-keys a").first();
  const before = await first.getAttribute("href");
  assert.doesNotMatch(before, /work_resumed/);
  const beside = await tablet.newTab();
  await openShaft(beside, desk, JOB, SHAFT);
  await tapKind(beside, JOB, SHAFT, "work_stopped");
  await fill(beside, "reason", "lightning");
  const box = await first.boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await save(beside);
  await page.waitForTimeout(700);
  assert.equal(await first.getAttribute("href"), before);
  await page.mouse.up();
  await page.waitForURL(desk.url + before);
  await page.goBack();
  await page.locator(".shaft-keys a").first().and(page.locator('[href$="/enter/work_resumed"]')).waitFor();
  await beside.close();
});
