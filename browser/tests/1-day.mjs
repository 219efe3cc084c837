// A day at the rig: loaded once, the desk switched off, a pour of forty entries tapped in, the page loaded again,
// the browser restarted, the desk back, everything sent, the same figures on a second tablet, the package made.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, enter, fill, keptForOffline, openShaft, pair, save, tapKind, tapPad } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-1";
const LOADS = 13;

let desk;
let tablet;
let page;
let second;

before(async () => {
  const place = folder("day");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
});

after(async () => {
  await second?.off();
  await tablet?.off();
  await desk?.stop();
});

/** What the screen of the shaft tells in big figures, without what counts with the clock. */
async function figures(on) {
  return on.locator(".shaft-figures .figure").evaluateAll((all) =>
    all.map((figure) => figure.innerText.replace(/\s+/g, " ").trim()),
  );
}

/** How many entries the log of the shaft shows. */
async function logged(on) {
  await on.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
  await on.locator(".log-row").first().waitFor();
  return on.locator(".log-row").count();
}

test("the tablet is paired and holds the job and the app", async () => {
  await page.goto(desk.url);
  await author(page, desk, "R. Quill");
  await pair(page, desk, "tablet 1");
  await page.locator(".list-row").first().waitFor();
  await keptForOffline(page);
  await tablet.picture("day-1-jobs");
});

test("with the desk off, the pour is tapped in: more than forty entries", async () => {
  await desk.stop();
  await openShaft(page, desk, JOB, SHAFT);
  await tapKind(page, JOB, SHAFT, "line_made_up");
  for (const [path, text] of [["name", "tremie"], ["line", "Tremie"], ["tip", "23.6"]]) await fill(page, path, text);
  await tablet.picture("day-2-form");
  await save(page);
  for (let load = 1; load <= LOADS; load++) {
    const ticket = String(100 + load);
    await enter(page, JOB, SHAFT, "load_arrived", { ticket, volume: "0.7" });
    await enter(page, JOB, SHAFT, "discharge_started", { ticket });
    await enter(page, JOB, SHAFT, "discharge_ended", { ticket });
    if (load % 3 === 0) {
      await tapKind(page, JOB, SHAFT, "concrete_sounded");
      await page.locator("[id^=field-points-0]").first().waitFor();
      await page.locator('[id="field-points-0--depth"]').click();
      await tapPad(page, (24 - load * 1.8).toFixed(1));
      await save(page);
    }
  }
  await tablet.picture("day-3-pouring");
  const waiting = await page.locator(".bar-outbox-count").innerText();
  assert.equal(waiting, `${1 + LOADS * 3 + Math.floor(LOADS / 3)} to send`);
});

test("nothing is gone after the page is loaded again and the browser restarted", async () => {
  const told = await figures(page);
  assert.ok(told.length >= 3, `big figures: ${told}`);
  await page.reload();
  await page.locator(".shaft-figures .figure").first().waitFor();
  assert.deepEqual(await figures(page), told);
  await tablet.restart();
  page = tablet.page;
  await openShaft(page, desk, JOB, SHAFT);
  await page.locator(".shaft-figures .figure").first().waitFor();
  assert.deepEqual(await figures(page), told);
});

test("the desk is back and everything is sent", async () => {
  await desk.start();
  await allSent(page);
  const kept = shaftbook("export", "record", "--job", desk.place);
  const sent = kept.split("\n").filter((line) => line.includes('"kind":"load_arrived"'));
  assert.equal(sent.length, LOADS);
});

test("a second tablet shows the same", async () => {
  second = await Tablet.on({ size: "phone" });
  await author(second.page, desk, "D. Pike");
  await pair(second.page, desk, "phone 2");
  await allSent(second.page);
  await openShaft(second.page, desk, JOB, SHAFT);
  await second.page.locator(".shaft-figures .figure").first().waitFor();
  await openShaft(page, desk, JOB, SHAFT);
  await page.locator(".shaft-figures .figure").first().waitFor();
  assert.deepEqual(await figures(second.page), await figures(page));
  assert.equal(await logged(second.page), await logged(page));
  await second.picture("day-4-second");
});

test("what one writes the other sees without asking", async () => {
  await openShaft(second.page, desk, JOB, SHAFT);
  await openShaft(page, desk, JOB, SHAFT);
  await enter(second.page, JOB, SHAFT, "remark", { text: "seen from the phone" });
  await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
  await page.locator(".log-row", { hasText: "seen from the phone" }).first().waitFor({ timeout: 15_000 });
});

test("the package is made by the desk", async () => {
  const answer = await page.request.get(`${desk.url}/api/v1/jobs/${JOB}/shafts/${SHAFT}/package.pdf`);
  assert.equal(answer.status(), 200);
  assert.equal((await answer.body()).subarray(0, 5).toString(), "%PDF-");
});

test("the pages complained of nothing", () => {
  // A desk that is off refuses connections; that is no fault of the page.
  const faults = tablet.complaints.filter((line) => !/ERR_CONNECTION|Failed to load resource|ERR_INCOMPLETE|ERR_NETWORK/.test(line));
  assert.deepEqual(faults, []);
});
