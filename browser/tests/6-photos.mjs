// A photo beside the rig: taken with no connection, kept by its hash, shown in the log, sent when the desk is back,
// seen on the second device. What is no picture or too large is refused, and nothing that was entered is lost.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, fill, keptForOffline, openShaft, pair, save, tapKind } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-1";
const CAPTION = "Bottom after the second pass, lamp lowered to 23 ft";
const MEGABYTE = 1024 * 1024;

let desk;
let tablet;
let page;
let picture;
let hash;

before(async () => {
  const place = folder("photos");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  desk = await Desk.open({ place });
  tablet = await Tablet.on({ size: "phone" });
  page = tablet.page;
  await author(page, desk, "R. Quill");
  await pair(page, desk, "phone with a camera");
  await page.locator(".list-row").first().waitFor();
  await keptForOffline(page);
  picture = await page.screenshot({ type: "jpeg", quality: 80 });
  hash = createHash("sha256").update(picture).digest("hex");
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** Hands a file to the field of the form, as the camera does. */
function take(name, mimeType, buffer) {
  return page.locator("#field-file").setInputFiles({ name, mimeType, buffer });
}

/** Waits until a picture is not only there but shown. */
async function shown(on, selector) {
  await on.locator(selector).first().waitFor();
  await on.waitForFunction((selector) => document.querySelector(selector)?.naturalWidth > 0, selector);
}

async function openLog(on) {
  await on.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
  await on.locator(".log-row").first().waitFor();
}

test("a file that is no picture is refused by name, and the form stands as it was", async () => {
  await desk.stop();
  await openShaft(page, desk, JOB, SHAFT);
  await tapKind(page, JOB, SHAFT, "photo");
  await fill(page, "caption", CAPTION);
  await take("tickets.jpg", "image/jpeg", Buffer.from("%PDF-1.7 a document in the coat of a photo"));
  const notice = page.locator(".photo .notice");
  await notice.waitFor();
  assert.match(await notice.innerText(), /tickets\.jpg is no picture/);
  assert.equal(await page.locator("#field-caption").inputValue(), CAPTION);
  await tablet.picture("photo-1-no-picture");
});

test("a photo that is too large is refused with both sizes, and the form stands as it was", async () => {
  const large = Buffer.concat([picture, Buffer.alloc(21 * MEGABYTE)]);
  await take("panorama.jpg", "image/jpeg", large);
  const notice = page.locator(".photo .notice", { hasText: "MB" });
  await notice.waitFor();
  assert.match(await notice.innerText(), /22 MB; at most 20 MB/);
  assert.equal(await page.locator("#field-caption").inputValue(), CAPTION);
});

test("with the desk off, a photo is taken, shown in the form, saved, and shown in the log", async () => {
  await take("IMG_0042.jpg", "image/jpeg", picture);
  await shown(page, ".photo img");
  assert.equal(await page.locator(".photo .notice").count(), 0);
  await tablet.picture("photo-2-taken");
  await save(page);
  await openLog(page);
  await shown(page, ".log-photo");
  await page.reload();
  await shown(page, ".log-photo");
  await page.locator(".log-row", { hasText: CAPTION }).scrollIntoViewIfNeeded();
  await tablet.picture("photo-3-log");
  await page.goto(`${desk.url}/outbox`);
  await page.getByText(/1 photo/).first().waitFor();
});

test("the desk is back: entry and photo are sent, and the photo is byte for byte the one that was taken", async () => {
  await desk.start();
  await allSent(page);
  await page.waitForFunction(() => !/1 photo/.test(document.querySelector("main").innerText));
  const answer = await page.request.get(`${desk.url}/api/v1/photos/${hash}`);
  assert.equal(answer.status(), 200);
  assert.ok(picture.equals(await answer.body()));
  assert.match(shaftbook("export", "record", "--job", desk.place), new RegExp(hash));
});

test("the second device shows the photo", async () => {
  const second = await Tablet.on();
  try {
    await author(second.page, desk, "D. Pike");
    await pair(second.page, desk, "tablet of the office");
    await allSent(second.page);
    await openLog(second.page);
    await second.page.locator(".log-row", { hasText: CAPTION }).waitFor();
    await shown(second.page, ".log-photo");
    await second.page.locator(".log-row", { hasText: CAPTION }).scrollIntoViewIfNeeded();
    await second.picture("photo-4-second");
  } finally {
    await second.off();
  }
});
