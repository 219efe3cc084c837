// Review: the engineer decides, asks and releases; the inspector answers and signs; the contractor's quality staff
// comment; the shaft is sealed and its package proves itself. Each on a tablet of their own, with the role they have.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { looked as lookedAt } from "../lib/looked.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, fill, pair, save } from "../lib/rig.mjs";

const JOB = "test-job";
const SHAFT = "S-1";
const PASSWORD = "rain on the rig again";
/** A casing that stands too low, a hold, a remark: one finding to decide about, and a pour that is over. */
const NOTES = `
[job]
key = "${JOB}"
date = 2026-05-01
author = "R. Quill"
name = "Harrow Vale, signs"
time_zone = "America/Denver"
units = "us"
lengths = "feet_tenths"

[criteria]
set = "roadside-common-practice-1"

[[person]]
name = "R. Quill"
role = "inspector"

[[person]]
name = "I. Vane"
role = "engineer"

[[person]]
name = "D. Pike"
role = "contractor_quality"

[[shaft]]
id = "${SHAFT}"
structure = "sign"
ground = "100.0 ft"
top = "100.0 ft"
tip = "76.0 ft"
method = "wet"
bore = "42 in"

[[day]]
date = 2026-05-04
shaft = "${SHAFT}"
author = "R. Quill"
log = [
  { at = "09:00", entry = "casing_set", name = "surface", stay = "temporary", length = "6 ft", top = "100.2 ft" },
  { at = "09:30", entry = "hold_placed", hold = "concrete", reason = "the mix is not approved" },
  { at = "10:00", entry = "remark", text = "water at 12 ft" },
  { at = "15:00", entry = "curing", method = "wet burlap" },
]
`;
const PEOPLE = {
  inspector: { name: "R. Quill", login: "r.quill", role: "inspector" },
  engineer: { name: "I. Vane", login: "i.vane", role: "reviewer" },
  quality: { name: "D. Pike", login: "d.pike", role: "contractor_quality" },
};

let desk;
const tablets = {};
let office;

before(async () => {
  const place = folder("review");
  const notes = join(place, "notes.toml");
  writeFileSync(notes, NOTES);
  shaftbook("enter", notes, "--job", place);
  desk = await Desk.open({ place, words: ["--name", "Harrow Vale office"] });
  office = await Tablet.on({ size: "desktop" });
  JSON.parse(shaftbook("people", "add", place, "m.office", "--json"));
  for (const [part, person] of Object.entries(PEOPLE)) tablets[part] = await paired(person);
});

after(async () => {
  for (const tablet of [office, ...Object.values(tablets)]) await tablet?.off();
  await desk?.stop();
});

/** Somebody who comes by an invitation and pairs a tablet as their own. */
async function paired({ name, login, role }) {
  const { link } = JSON.parse(shaftbook("people", "add", desk.place, login, "--role", role, "--on", JOB, "--json"));
  const page = office.page;
  await page.goto(link);
  await page.getByLabel("New password").fill(PASSWORD);
  await page.getByLabel("The same again").fill(PASSWORD);
  await page.getByRole("button", { name: "Choose this password" }).click();
  await page.waitForURL(`${desk.url}/people`);
  await page.getByRole("button", { name: "New code for a device" }).click();
  const code = await page.locator(".code").innerText();
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForURL(`${desk.url}/people/sign-in`);
  const tablet = await Tablet.on();
  await author(tablet.page, desk, name);
  await pair(tablet.page, desk, `tablet of ${name}`, code);
  await allSent(tablet.page);
  return tablet;
}

async function openItems(tablet) {
  await tablet.page.goto(`${desk.url}/job/${JOB}/open-items`);
  await tablet.page.getByRole("heading", { name: "Open items" }).waitFor();
  return tablet.page;
}

/** The item whose text holds this. */
const item = (page, text) => page.locator(".open-item", { hasText: text });

/** Every size and both themes: nothing axe complains of, nothing wider than the screen, keys a glove can hit. */
const looked = (tablet, name) =>
  lookedAt(tablet, `review-${name}`, async (size) => {
    const small = await tablet.page.locator(".open-items :is(.key, .chip, .open-link)").evaluateAll((all) =>
      all.filter((one) => one.getBoundingClientRect().height < 48).map((one) => one.textContent),
    );
    assert.deepEqual(small, [], `under 48 px on a ${size}`);
  });

test("the list says what waits, and whose move it is", async () => {
  const page = await openItems(tablets.engineer);
  await item(page, "Nobody has decided about it").waitFor();
  const leads = await page.locator(".open-item .open-head strong").allInnerTexts();
  assert.deepEqual(leads, ["To decide", "To release", "To sign", "To sign"]);
  const mine = page.getByRole("button", { name: /^Mine/ });
  assert.equal(await mine.innerText(), "Mine (3)");
  await mine.click();
  assert.equal(await page.locator(".open-item").count(), 3, "the engineer's alone");
  await page.getByRole("button", { name: /^All/ }).click();
  await looked(tablets.engineer, "items");
});

test("without a connection the engineer decides, releases and asks", async () => {
  const tablet = tablets.engineer;
  const page = await openItems(tablet);
  await tablet.context.setOffline(true);
  await item(page, "Nobody has decided about it").getByRole("link", { name: "Accept as it is" }).click();
  await page.locator("form.entry").waitFor();
  await fill(page, "reason", "firm ground; the next one is cut longer");
  await tablet.picture("review-decide");
  await save(page);
  await page.waitForURL(`${desk.url}/job/${JOB}/open-items`);
  await item(page, "Hold: concrete").getByRole("link", { name: "Release" }).click();
  await page.locator("form.entry").waitFor();
  await save(page);
  await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
  await page.getByRole("link", { name: /^Question on Remark/ }).click();
  await page.locator("form.entry").waitFor();
  await fill(page, "question", "Which water level is meant?");
  await save(page);
  await openItems(tablet);
  await item(page, "Which water level is meant?").waitFor();
  assert.match(await item(page, "Which water level is meant?").locator(".open-head").innerText(), /R\. Quill/);
  await tablet.context.setOffline(false);
  await allSent(page);
});

test("the contractor's quality staff comment, and alter nothing", async () => {
  const page = tablets.quality.page;
  await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
  await page.getByRole("link", { name: /^Comment on Remark/ }).click();
  await page.locator("form.entry").waitFor();
  await fill(page, "text", "Our sheet says 11.5 ft.");
  await save(page);
  await allSent(page);
});

test("the inspector answers, and question, answer and comment stand under the entry", async () => {
  const tablet = tablets.inspector;
  const page = await openItems(tablet);
  const asked = item(page, "Which water level is meant?");
  await asked.waitFor({ timeout: 20_000 });
  await asked.getByRole("link", { name: "Answer" }).click();
  await page.locator("form.entry").waitFor();
  await fill(page, "answer", "The groundwater, before the casing.");
  await save(page);
  await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
  const remark = page.locator(".log-row", { hasText: "water at 12 ft" }).filter({ hasText: "Remark" }).last();
  await remark.locator(".log-said", { hasText: "R. Quill answers" }).waitFor();
  await remark.locator(".log-said", { hasText: "D. Pike says" }).waitFor({ timeout: 20_000 });
  assert.equal(await remark.locator(".struck").count(), 0, "what was written stands");
  await looked(tablet, "log");
});

test("who has not the role for it signs, and the office keeps that aside", async () => {
  const page = tablets.quality.page;
  await openItems(tablets.quality);
  await page.getByRole("link", { name: "Sign as engineer" }).click();
  await page.locator("form.entry").waitFor();
  await save(page);
  await page.locator(".bar-outbox-count", { hasText: "refused" }).waitFor({ timeout: 20_000 });
  await page.goto(`${desk.url}/outbox`);
  await page.getByText(/it is for another to say/).first().waitFor();
  const record = shaftbook("export", "record", "--job", desk.place, "--out", "-");
  assert.ok(!record.includes('"kind":"signed"'), "nothing of it is in the record");
});

test("inspector and engineer sign, the engineer seals, and the package proves itself", async () => {
  for (const part of ["inspector", "engineer"]) {
    const page = await openItems(tablets[part]);
    await page.getByRole("link", { name: `Sign as ${part}` }).click();
    await page.locator("form.entry").waitFor();
    await save(page);
    await allSent(page);
  }
  const tablet = tablets.engineer;
  const page = await openItems(tablet);
  await page.getByRole("button", { name: /^Seal the shaft/ }).waitFor({ timeout: 20_000 });
  await looked(tablet, "ready");
  await page.getByRole("button", { name: /^Seal the shaft/ }).click();
  const link = page.getByRole("link", { name: "Sealed package (PDF)" });
  await link.waitFor({ timeout: 60_000 });
  await page.getByText(/Sealed .* by I\. Vane \(i\.vane\)/).waitFor();
  await looked(tablet, "sealed");
  const answer = await page.request.get(new URL(await link.getAttribute("href"), desk.url).href);
  assert.equal(answer.status(), 200);
  const file = join(folder("sealed"), "package.pdf");
  writeFileSync(file, await answer.body());
  assert.match(shaftbook("verify", file), /no entry is missing, and the pages are the sealed ones/);
  assert.ok(readFileSync(file).length > 50_000);
});

test("the pages complained of nothing", () => {
  const faults = Object.values(tablets).flatMap((tablet) => tablet.complaints);
  // A tablet without a connection is told so by the browser.
  assert.deepEqual(faults.filter((line) => !/ERR_|Failed to load resource/.test(line)), []);
});
