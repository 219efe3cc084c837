// Wrong input: each is refused or carried with a clear notice, and nothing is lost.

import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, enter, openShaft, pair } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-1";

let desk;
let tablet;
let page;
let lines;
const files = folder("wrong-files");

before(async () => {
  const place = folder("wrong");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  lines = shaftbook("export", "record", "--job", place).trim().split("\n");
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
  await author(page, desk, "R. Quill");
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** Reads a file in on the screen for it, and gives what the app says. */
async function read(name, text) {
  const path = join(files, name);
  writeFileSync(path, text);
  await page.goto(`${desk.url}/read`);
  await page.locator("input[type=file]").setInputFiles(path);
  await page.waitForFunction(() => document.querySelector("main")?.innerText.match(/line|kept|read|job|entr/i));
  await page.waitForTimeout(500);
  return page.locator("main").innerText();
}

test("a wrong pairing code is refused in three sentences, and the right one still works", async () => {
  await page.goto(`${desk.url}/pair`);
  await page.getByLabel("Code").fill("ZZZZ-9999");
  await page.getByLabel("Name of this device").fill("tablet 9");
  await page.getByRole("button", { name: "Pair" }).click();
  const notice = page.locator(".notice").first();
  await notice.waitFor();
  assert.match(await notice.innerText(), /code/i);
  await pair(page, desk, "tablet 9");
});

test("an altered entry is refused with its line, and nothing of the file is kept", async () => {
  const altered = [...lines];
  altered[2] = altered[2].replace(/"author":"([^"])/, '"author":"X$1');
  assert.notEqual(altered[2], lines[2]);
  const before = shaftbook("export", "record", "--job", desk.place);
  const said = await read("altered.jsonl", altered.join("\n") + "\n");
  assert.match(said, /3/);
  assert.match(said, /nothing/i);
  assert.equal(shaftbook("export", "record", "--job", desk.place), before);
});

test("the same record read in again changes nothing", async () => {
  const said = await read("again.jsonl", lines.join("\n") + "\n");
  assert.match(said, /already|nothing new|0 new|no new/i);
});

test("notes of another job are told apart from this one", async () => {
  const said = await read("auftrag.toml", "[job]\nkey = \"no-such\"\nname = 3\n");
  assert.match(said, /line|expected|name/i);
});

test("a clock ten years off is said, and the entry is carried", async () => {
  const off = await Tablet.on();
  try {
    await off.context.clock.install({ time: new Date("2036-01-01T10:00:00Z") });
    await author(off.page, desk, "D. Pike");
    await pair(off.page, desk, "ten years off");
    await openShaft(off.page, desk, JOB, SHAFT);
    await enter(off.page, JOB, SHAFT, "remark", { text: "from the future" });
    await off.page.getByText(/clock/i).first().waitFor();
    await allSent(off.page);
    await off.picture("wrong-clock");
    assert.match(shaftbook("export", "record", "--job", desk.place), /from the future/);
  } finally {
    await off.off();
  }
});

test("a photo larger than the desk takes is refused by name", async () => {
  const state = await page.context().storageState();
  assert.ok(state);
  const answer = await page.request.put(`${desk.url}/api/v1/photos/${"0".repeat(64)}`, { data: Buffer.alloc(26 * 1024 * 1024) });
  assert.equal(answer.status(), 413);
  const refusal = await answer.json();
  for (const part of ["code", "what", "meaning", "next"]) assert.ok(refusal[part], part);
});
