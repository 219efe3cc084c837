// What many shafts show: every figure leads to its shaft or its entry, by hand and by keyboard, also without a connection.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { author, keptForOffline, pair } from "../lib/rig.mjs";

const JOB = "harrow-vale";
let desk;
let tablet;
let page;

before(async () => {
  const place = folder("many");
  shaftbook("begin", place);
  const notes = ["1-job", "2-shaft-s1", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  desk = await Desk.open({ place: folder("many-desk"), words: ["--shaft", "S-2", "--from", "15:50", "--speed", "1", "--relive", ...notes] });
  tablet = await Tablet.on();
  page = tablet.page;
  await author(page, desk, "R. Quill");
  await pair(page, desk, "one of the office");
  await page.locator(".list-row").first().waitFor();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** Opens a page and waits until all its shafts are reckoned. */
async function open(path, seen) {
  await page.goto(desk.url + path);
  await page.locator(seen).first().waitFor();
  await page.locator(".reckoning").waitFor({ state: "detached" });
}

test("a reading in a drawing leads to its entry in the log, and nothing is loaded again", async () => {
  await open(`/job/${JOB}/compare`, "#across-readings");
  await page.evaluate(() => (globalThis.same = true));
  const mark = page.locator('section[aria-labelledby="across-readings"] svg a[href*="/log#"]').first();
  const to = await mark.getAttribute("href");
  await mark.locator(".reach").click();
  await page.waitForURL(desk.url + to);
  const row = page.locator(`[id="${to.split("#")[1]}"]`);
  await row.waitFor();
  await page.waitForTimeout(800);
  assert.match(await row.getAttribute("class"), /log-sought/);
  const box = await row.boundingBox();
  assert.ok(box.y >= 0 && box.y < 768, `the row stands at ${box.y}`);
  assert.equal(await page.evaluate(() => globalThis.same), true, "the page was not loaded again");
});

test("a dot leads to its shaft", async () => {
  await open(`/job/${JOB}/compare`, "#across-taken");
  const dot = page.locator('section[aria-labelledby="across-taken"] svg a').first();
  const to = await dot.getAttribute("href");
  assert.match(to, /\/shaft\/S-/);
  await dot.locator(".reach").click({ force: true });
  await page.waitForURL(/\/shaft\/S-/);
});

test("a keyboard reaches the same entry through the list", async () => {
  await open(`/job/${JOB}/compare`, "#across-readings");
  const fold = page.locator('section[aria-labelledby="across-readings"] details').first();
  await fold.locator("summary").focus();
  await page.keyboard.press("Enter");
  await fold.locator("li a").first().waitFor();
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.tagName), "A");
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/log#[0-9a-f]{64}$/);
});

test("no mark of a drawing is a stop of the Tab key", async () => {
  await open(`/job/${JOB}/compare`, "#across-readings");
  const stops = await page.evaluate(() => [...document.querySelectorAll("svg a")].filter((one) => one.tabIndex >= 0).length);
  assert.equal(stops, 0);
});

test("all jobs together stand there without a connection, and each line leads to what says more", async () => {
  await keptForOffline(page);
  await open("/all", ".office-job");
  await tablet.context.setOffline(true);
  try {
    await page.reload();
    await page.locator(".office-job").first().waitFor();
    assert.match(await page.locator(".lead").first().innerText(), /1 job, \d shafts/);
    await page.locator(".office-way", { hasText: "of the drawing" }).click();
    await page.waitForURL(`${desk.url}/job/${JOB}/compare#across-taken`);
    await page.locator("#across-taken").waitFor();
    await page.goBack();
    await page.locator(".office-way", { hasText: / for / }).first().click();
    await page.waitForURL(`${desk.url}/job/${JOB}/open-items`);
  } finally {
    await tablet.context.setOffline(false);
  }
});

test("all jobs together are shown at the time on site, not at that of the device", async () => {
  await open("/all", ".office-job");
  // The office tells its clock a moment after the page has begun.
  await page.waitForFunction(() => /\d+ May 2025, \d\d:\d\d/.test(document.querySelector(".office-job svg")?.textContent ?? ""));
  assert.doesNotMatch(await page.locator(".office-job svg").first().textContent(), / 20(?!25)\d\d, /);
});

test("an entry that comes in changes the page of all jobs by itself", async () => {
  const notes = ["1-job", "2-shaft-s1", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  const pouring = await Desk.open({ place: folder("many-pouring"), words: ["--shaft", "S-2", "--from", "12:20", "--speed", "240", "--relive", ...notes] });
  const other = await Tablet.on();
  try {
    await other.page.goto(pouring.url);
    await author(other.page, pouring, "R. Quill");
    await pair(other.page, pouring, "the owner's");
    await other.page.locator(".list-row").first().waitFor();
    await other.page.goto(`${pouring.url}/all`);
    const rows = other.page.locator(".office-rows").first();
    await rows.waitFor();
    await other.page.evaluate(() => (globalThis.same = true));
    const before = await rows.innerText();
    const changed = (text) => document.querySelector(".office-rows")?.innerText !== text;
    await other.page.waitForFunction(changed, before, { timeout: 60_000 });
    assert.equal(await other.page.evaluate(() => globalThis.same), true, "the page was not loaded again");
  } finally {
    await other.off();
    await pouring.stop();
  }
});

test("nothing complains", () => {
  assert.deepEqual(tablet.complaints.filter((line) => !/Failed to load resource/.test(line)), []);
});
