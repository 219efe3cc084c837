// The sheet an inspector hands out, printed from the browser with no connection: the day first, then findings, drawings
// and every entry on a line; on each page which shaft this is, the digest of the record, and the number of the page.

import assert from "node:assert/strict";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { PICTURES, Tablet } from "../lib/tablet.mjs";
import { author, keptForOffline, pair } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";
/** Half of the 35 pages it once had; the record of two long days. */
const PAGES_MOST = 18;

let desk;
let tablet;
let page;

before(async () => {
  const place = folder("sheet");
  shaftbook("begin", place);
  const notes = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  shaftbook("enter", ...notes, "--job", place);
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
  await author(page, desk, "R. Quill");
  await pair(page, desk, "tablet with a printer");
  await page.locator(".list-row").first().waitFor();
  await keptForOffline(page);
  await desk.stop();
  await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/sheet`);
  await page.locator(".sheet-log tbody").first().waitFor();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** How many pages a PDF of the browser has. */
function pagesOf(pdf) {
  return [...pdf.toString("latin1").matchAll(/\/Type\s*\/Page(?!s)/g)].length;
}

for (const format of ["Letter", "A4"]) {
  test(`printed on ${format} it is short`, async () => {
    const pdf = await page.pdf({ format, preferCSSPageSize: true });
    mkdirSync(PICTURES, { recursive: true });
    const path = join(PICTURES, `sheet-${format}.pdf`);
    writeFileSync(path, pdf);
    const pages = pagesOf(pdf);
    assert.ok(pages >= 4 && pages <= PAGES_MOST, `${pages} pages`);
  });
}

test("under every page stands the foot and the number of the page", async () => {
  const margins = await page.evaluate(() =>
    [...document.styleSheets]
      .flatMap((sheet) => [...sheet.cssRules])
      .filter((rule) => rule instanceof CSSMediaRule && rule.media.mediaText === "print")
      .flatMap((rule) => [...rule.cssRules])
      .filter((rule) => rule instanceof CSSPageRule)
      .map((rule) => rule.cssText)
      .join(" "),
  );
  assert.match(margins, /@bottom-left[^}]*var\(--foot/);
  assert.match(margins, /@bottom-right[^}]*counter\(page\)[^}]*counter\(pages\)/);
});

test("the foot names shaft, job and the digest that the desk proves", async () => {
  const foot = await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue("--foot"));
  const said = JSON.parse(shaftbook("verify", desk.place, "--json"));
  assert.match(foot, /Shaft S-2 · Harrow Vale/);
  assert.ok(foot.includes(said.digest), `${foot} against ${JSON.stringify(said)}`);
});

test("the day stands before the findings, those before the drawings, the log comes last, no entry is missing", async () => {
  const order = await page.evaluate(() =>
    [".sheet-drawing-day", "[aria-label=Findings]", ".sheet-drawings", "[aria-label=Figures]", ".sheet-log"].map(
      (selector) => document.querySelector(selector).getBoundingClientRect().top,
    ),
  );
  assert.deepEqual(order, [...order].sort((a, b) => a - b));
  const record = shaftbook("export", "record", "--job", desk.place).trim().split("\n").map((line) => JSON.parse(line));
  const ours = record.filter((entry) => !entry.shaft || entry.shaft === SHAFT);
  assert.equal(await page.locator(".sheet-log tbody tr:not(.table-day)").count(), ours.length);
});

test("nothing runs out of the side of the page", async () => {
  await page.emulateMedia({ media: "print" });
  await page.setViewportSize({ width: 700, height: 900 });
  const wide = await page.evaluate(() =>
    [...document.querySelectorAll("main *")]
      .filter((one) => one.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
      .map((one) => `${one.tagName}.${one.className} ${Math.round(one.getBoundingClientRect().right)}`)
      .slice(0, 5),
  );
  assert.deepEqual(wide, []);
});
