// The evening before: a schedule out of a spreadsheet, looked at row by row before it becomes shafts on the plan; the
// same out of a file; notes read in the app, several files that need each other together; notes of another job refused.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, openShaft, pair } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const HEAD = ["Shaft No.", "Structure", "Method", "Top elev. (ft)", "Tip elevation", "Dia. (in)", "Northing", "Easting", "Remarks"];
const ROWS = [
  ["W-1", "wall", "dry", "5210", "5180", "36", "1000", "2000", "first of the wall"],
  ["W-2", "wall", "dry", "5210", "5180", "36", "1000", "2012", ""],
  ["W-2", "wall", "dry", "5210", "5180", "36", "1000", "2024", "the same name twice"],
  ["W-4", "wall", "dry", "5210", "51 8O", "36", "1000", "2036", "a letter in the tip"],
  ["W-5", "wall", "dug", "5210", "5180", "36", "1000", "2048", "no such method"],
];

let desk;
let tablet;
let page;

before(async () => {
  const place = folder("plan");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
  await author(page, desk, "R. Quill");
  await pair(page, desk, "tablet at home");
  await page.locator(".list-row").first().waitFor();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** The row of the preview that stands on this line of the table. */
function previewed(line) {
  return page.locator(".list-row", { hasText: new RegExp(`Row ${line}(?!\\d)`) });
}

async function openSchedule() {
  await page.goto(`${desk.url}/job/${JOB}/schedule`);
  await page.locator("textarea").waitFor();
}

/** Reads files in on the screen for it and gives what the app says. */
async function choose(paths, job = "") {
  await page.goto(`${desk.url}/read`);
  await page.locator("input[type=file]").waitFor();
  if (job) await page.locator("label.choice", { hasText: job }).click();
  await page.locator("input[type=file]").setInputFiles(paths);
  const said = page.locator("main h2, main .notice").first();
  await said.waitFor();
  return page.locator("main").innerText();
}

const entered = () => shaftbook("export", "record", "--job", desk.place).trim().split("\n").length;

test("a schedule pasted from a spreadsheet: every bad row says why it is none", async () => {
  await openSchedule();
  const table = [HEAD, ...ROWS].map((row) => row.join("\t")).join("\n");
  await page.locator("textarea").fill(table);
  await page.getByRole("button", { name: "Look at the rows" }).click();
  await previewed(2).waitFor();
  assert.match(await previewed(2).innerText(), /W-1[\s\S]*can be planned/);
  assert.match(await previewed(4).innerText(), /W-2[\s\S]*twice|already|row/i);
  assert.match(await previewed(5).innerText(), /Tip: .*51 8O/);
  assert.match(await previewed(6).innerText(), /Method: .*dug/);
  assert.match(await page.locator("dl.pairs").first().innerText(), /Remarks\s+not taken/);
  assert.ok(await page.getByRole("button", { name: /mend or leave out/i }).isDisabled());
  await previewed(2).scrollIntoViewIfNeeded();
  await tablet.picture("plan-1-preview");
});

test("what is bad is left out with a tap, the rest becomes shafts on the plan", async () => {
  for (const line of [4, 5, 6]) await previewed(line).getByRole("button", { name: "Leave it out" }).click();
  await page.getByRole("button", { name: "Plan 2 shafts" }).click();
  await page.waitForURL(`${desk.url}/job/${JOB}`);
  for (const shaft of ["W-1", "W-2"]) {
    await page.locator(".list-row", { hasText: shaft }).waitFor();
    await page.locator("svg text", { hasText: shaft }).first().waitFor();
  }
  assert.equal(await page.locator(".list-row", { hasText: "W-5" }).count(), 0);
  await tablet.picture("plan-2-job");
  await openShaft(page, desk, JOB, "W-1");
  await page.getByText("36 in").first().waitFor();
});

test("the same table out of a file: what is planned already is named and not planned twice", async () => {
  await openSchedule();
  const quoted = (row) => row.map((cell) => (/[", ]/.test(cell) ? `"${cell}"` : cell)).join(",");
  const third = ["W-3", "wall", "dry", "5210", "5180", "36", "1000", "2024", "in place of the second W-2"];
  const csv = [HEAD, ROWS[0], third].map(quoted).join("\r\n");
  await page.locator("input[type=file]").setInputFiles({ name: "schedule.csv", mimeType: "text/csv", buffer: Buffer.from(csv) });
  await previewed(3).waitFor();
  assert.match(await previewed(2).innerText(), /W-1[\s\S]*(planned already|already)/i);
  await previewed(2).getByRole("button", { name: "Leave it out" }).click();
  await page.getByRole("button", { name: "Plan 1 shaft" }).click();
  await page.waitForURL(`${desk.url}/job/${JOB}`);
  await page.locator(".list-row", { hasText: "W-3" }).waitFor();
});

test("a notes file is looked at, entered, and not entered twice", async () => {
  // The shaft planned just before is on its way to the desk; it was counted in the moment it was saved, so that the bar
  // does not say "All sent" before it has travelled.
  await allSent(page);
  const before = entered();
  const said = await choose("demo/harrow-vale/2-shaft-s1.toml", "Harrow Vale");
  assert.match(said, /\d+ entries to enter/);
  assert.match(said, /S-1: /);
  assert.equal(entered(), before, "looking enters nothing");
  await tablet.picture("plan-3-notes");
  await page.getByRole("button", { name: "Enter them" }).click();
  await page.getByText(/entries are signed and kept/).waitFor();
  const again = await choose("demo/harrow-vale/2-shaft-s1.toml", "Harrow Vale");
  assert.match(again, /^0 entries to enter/m);
  assert.ok(await page.getByRole("button", { name: "Enter them" }).isDisabled());
});

test("notes of another job are refused with both names, and nothing is kept", async () => {
  const said = await choose("demo/lindmoor/2-pfahl-p7.toml", "Harrow Vale");
  assert.match(said, /lindmoor/);
  assert.match(said, /harrow-vale/);
  assert.match(said, /nothing/i);
  assert.equal(await page.getByRole("button", { name: "Enter them" }).count(), 0);
  await tablet.picture("plan-4-other-job");
});

test("notes that need each other are read together, in whatever order they are chosen", async () => {
  const alone = await choose("demo/lindmoor/2-pfahl-p7.toml");
  assert.match(alone, /job/i);
  assert.equal(await page.getByRole("button", { name: "Enter them" }).count(), 0, "one alone lacks the job");
  const file = (name) => ({ name, mimeType: "text/plain", buffer: readFileSync(`demo/lindmoor/${name}`) });
  const together = await choose([file("2-pfahl-p7.toml"), file("1-auftrag.toml")]);
  assert.match(together, /entries to enter into lindmoor/);
  await tablet.picture("plan-5-together");
  await page.getByRole("button", { name: "Enter them" }).click();
  await page.getByText(/entries are signed and kept/).waitFor();
  await page.getByRole("link", { name: "Open the job" }).click();
  await page.locator(".list-row", { hasText: "P-7" }).waitFor();
});

test("the pages complained of nothing", () => {
  assert.deepEqual(tablet.complaints, []);
});
