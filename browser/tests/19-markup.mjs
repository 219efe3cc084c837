// Markup in every text somebody types: it is shown as it was typed, on every screen, and nothing of it comes alive.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { author, pair, shaftPath } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";
const SHORT = `<img src=x onerror="window.owned=1">`;
const LONG = `${SHORT}<svg onload="window.owned=1"></svg><script>window.owned=1</script>&amp;`;

/** Fields of the notes in which people write what they like. */
const TEXTS = ("about action contractor datum grid location admixtures by caption checked_by description document engineer found ground_note how item material " +
  "method_note note offsets operator owner plant reason reply rig seen serial storage text title truck water what").split(" ");

let desk;
let tablet;
let page;

/** The notes of the demo with the markup behind every free text, and how many were changed. */
function spoiled(name) {
  let count = 0;
  const field = new RegExp(`(^|[{,\\s])(${TEXTS.join("|")}) = "((?:[^"\\\\]|\\\\.)*)"`, "g");
  const spoil = (whole, before, key, text) => {
    // A name of an entry of these notes, a time, a word of a list and a length are no free texts.
    if (/^[#\d]|^[a-z_]+$/.test(text)) return whole;
    count += 1;
    return `${before}${key} = "${text} ${LONG.replaceAll('"', '\\"')}"`;
  };
  const job = /^(name = ".*)"$/m;
  const notes = readFileSync(`demo/harrow-vale/${name}.toml`, "utf8").replace(job, (_, before) => `${before} ${LONG.replaceAll('"', '\\"')}"`);
  const text = notes.replace(field, spoil);
  const path = join(folder("markup-notes"), `${name}.toml`);
  writeFileSync(path, text);
  return { path, count };
}

before(async () => {
  const place = folder("markup");
  shaftbook("begin", place);
  const notes = ["1-job", "3-shaft-s2"].map(spoiled);
  assert.ok(notes.every(({ count }) => count > 10), `texts were changed: ${notes.map(({ count }) => count)}`);
  shaftbook("enter", ...notes.map(({ path }) => path), "--job", place);
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
  await author(page, desk, `R. Quill ${SHORT}`);
  await pair(page, desk, SHORT);
  await page.locator(".list-row").first().waitFor();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** What came alive on the page: it would have been text. */
function alive() {
  return page.evaluate(() => {
    const odd = [...document.querySelectorAll("img[src='x'], main script, svg[onload]")].map((one) => one.outerHTML);
    return window.owned ? [...odd, "a script ran"] : odd;
  });
}

/** Whether the page shows it, letter for letter; folded parts count. */
async function shown() {
  return (await page.locator("main").first().textContent()).includes(SHORT);
}

const S = shaftPath(JOB, SHAFT);
const SCREENS = {
  jobs: ["/", ".list-row", true],
  job: [`/job/${JOB}`, ".list-name", true],
  shaft: [S, ".shaft-figures .figure", false],
  drawings: [`${S}/drawings`, ".drawing svg", false],
  findings: [`${S}/findings`, "main h1", false],
  missing: [`${S}/ready`, "main h1", false],
  log: [`${S}/log`, ".log-row", true],
  sheet: [`${S}/sheet`, ".sheet-drawing svg", true],
  "open items": [`/job/${JOB}/open-items`, "main h1", false],
  "people": [`/job/${JOB}/people`, "main h1", false],
  "limits": [`/job/${JOB}/limits`, "main h1", false],
  compare: [`/job/${JOB}/compare`, ".across", false],
  all: ["/all", ".office-job", true],
  settings: ["/settings", "main h1", true],
  remark: [`${S}/enter/remark`, "form.entry", false],
};

for (const [name, [path, seen, says]] of Object.entries(SCREENS)) {
  test(`${name}: markup is text`, async () => {
    await page.goto(desk.url + path);
    await page.locator(seen).first().waitFor();
    await page.waitForTimeout(300);
    await page.evaluate(() => document.querySelectorAll("main details").forEach((fold) => (fold.open = true)));
    assert.deepEqual(await alive(), []);
    if (says) assert.ok(await shown(), "it is shown as it was typed");
  });
}

test("a drawing of hostile ground is still drawn", async () => {
  await page.goto(desk.url + S);
  const section = page.locator(".shaft-section svg");
  await section.waitFor();
  assert.match(await section.textContent(), /gravelly/);
});

test("nothing complains", () => {
  assert.deepEqual(tablet.complaints.filter((line) => !/Failed to load resource/.test(line)), []);
});
