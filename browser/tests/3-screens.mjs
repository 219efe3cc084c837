// Every screen, in both themes, at the sizes people hold: axe finds nothing at WCAG 2.2 AA, nothing runs out of the
// side, the shaft fits on a tablet, every key is big enough for a glove. Pictures go to out/browser.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { SIZES, Tablet } from "../lib/tablet.mjs";
import { author, pair } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";
const SCREENS = {
  jobs: "/",
  all: "/all",
  begin: "/begin",
  read: "/read",
  pair: "/pair",
  outbox: "/outbox",
  settings: "/settings",
  help: "/help",
  unknown: "/no/such/screen",
  job: `/job/${JOB}`,
  "open-items": `/job/${JOB}/open-items`,
  compare: `/job/${JOB}/compare`,
  people: `/job/${JOB}/people`,
  limits: `/job/${JOB}/limits`,
  schedule: `/job/${JOB}/schedule`,
  files: `/job/${JOB}/files`,
  shaft: `/job/${JOB}/shaft/${SHAFT}`,
  drawings: `/job/${JOB}/shaft/${SHAFT}/drawings`,
  findings: `/job/${JOB}/shaft/${SHAFT}/findings`,
  ready: `/job/${JOB}/shaft/${SHAFT}/ready`,
  log: `/job/${JOB}/shaft/${SHAFT}/log`,
  sheet: `/job/${JOB}/shaft/${SHAFT}/sheet`,
  load: `/job/${JOB}/shaft/${SHAFT}/enter/load_arrived`,
  slump: `/job/${JOB}/shaft/${SHAFT}/enter/concrete_test`,
  fluid: `/job/${JOB}/shaft/${SHAFT}/enter/fluid_test`,
  photo: `/job/${JOB}/shaft/${SHAFT}/enter/photo`,
  sounding: `/job/${JOB}/shaft/${SHAFT}/enter/concrete_sounded`,
};

let desk;

before(async () => {
  const place = folder("screens");
  shaftbook("begin", place);
  const notes = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  // The clock on site stands in the middle of the pour.
  desk = await Desk.open({ place: folder("screens-desk"), words: ["--shaft", SHAFT, "--from", "11:50", "--speed", "1", "--relive", ...notes] });
});

after(async () => desk?.stop());

/** What stands out over the right edge of the screen. */
function overflow(page) {
  return page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    return document.documentElement.scrollWidth > width + 1
      ? [`the page is ${document.documentElement.scrollWidth} wide on a screen of ${width}`]
      : [];
  });
}

/** Keys too small for a glove. Links in running text are no keys. */
function small(page) {
  return page.evaluate(() =>
    [...document.querySelectorAll("button, a.key, summary, label.choice, input[type=text], select, textarea")]
      .filter((one) => one.checkVisibility?.() ?? true)
      .map((one) => [one, one.getBoundingClientRect()])
      .filter(([, box]) => box.width > 0 && (box.height < 47.5 || box.width < 47.5))
      .map(([one, box]) => `${one.tagName} ${(one.innerText || one.ariaLabel || one.id || "").slice(0, 30)}: ${Math.round(box.width)} × ${Math.round(box.height)}`),
  );
}

async function show(page, path) {
  await page.goto(desk.url + path);
  await page.locator("h1").first().waitFor();
  await page.waitForTimeout(150);
}

for (const size of Object.keys(SIZES)) {
  test(`every screen on a ${size}`, async (t) => {
    const tablet = await Tablet.on({ size });
    const { page } = tablet;
    try {
      await author(page, desk, "R. Quill");
      await pair(page, desk, `one ${size}`);
      await page.locator(".list-row").first().waitFor();
      for (const theme of ["sun", "night"]) {
        await page.emulateMedia({ colorScheme: theme === "sun" ? "light" : "dark" });
        for (const [name, path] of Object.entries(SCREENS)) {
          await t.test(`${name}, ${theme}`, async () => {
            await show(page, path);
            await tablet.picture(`${size}-${theme}-${name}`);
            const found = [...(await tablet.axe()), ...(await overflow(page))];
            if (size !== "desktop") found.push(...(await small(page)));
            assert.deepEqual(found, []);
          });
        }
      }
      if (size === "tablet") {
        await t.test("the shaft fits without scrolling", async () => {
          await show(page, SCREENS.shaft);
          const over = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
          assert.ok(over <= 1, `${over} px too high`);
        });
      }
      const faults = tablet.complaints.filter((line) => !/Failed to load resource/.test(line));
      assert.deepEqual(faults, []);
    } finally {
      await tablet.off();
    }
  });
}

test("back and forward lead through the screens, and nothing is loaded again", async () => {
  const tablet = await Tablet.on({ size: "tablet" });
  const { page } = tablet;
  const at = (path) => page.waitForURL(desk.url + path);
  try {
    await author(page, desk, "R. Quill");
    await pair(page, desk, "back and forth");
    await page.locator(".list-row").first().waitFor();
    await page.evaluate(() => (globalThis.same = true));
    await page.locator(".list-row").first().click();
    await at(SCREENS.job);
    await page.locator(`a[href="${SCREENS.shaft}"]`).first().click();
    await at(SCREENS.shaft);
    await page.locator(`nav.tabs a[href="${SCREENS.findings}"]`).click();
    await at(SCREENS.findings);
    await page.locator("h1", { hasText: "Findings" }).waitFor();
    for (const [way, path, seen] of [
      ["goBack", SCREENS.shaft, ".shaft-figures .figure"],
      ["goBack", SCREENS.job, `a[href="${SCREENS.shaft}"]`],
      ["goForward", SCREENS.shaft, ".shaft-figures .figure"],
      ["goForward", SCREENS.findings, 'nav.tabs a[aria-current="page"]:text("Findings")'],
    ]) {
      await page[way]();
      await at(path);
      await page.locator(seen).first().waitFor();
    }
    assert.equal(await page.evaluate(() => globalThis.same), true, "the page was not loaded again");
    assert.deepEqual(tablet.complaints.filter((line) => !/Failed to load resource/.test(line)), []);
  } finally {
    await tablet.off();
  }
});

test("a key held while a link is tapped leaves the link to the browser", async () => {
  const tablet = await Tablet.on({ size: "desktop" });
  try {
    await tablet.page.goto(desk.url + SCREENS.help);
    await tablet.page.locator("h1").first().waitFor();
    const [other] = await Promise.all([
      tablet.context.waitForEvent("page"),
      tablet.page.locator("a.back").click({ modifiers: ["Control"] }),
    ]);
    await other.waitForURL(desk.url + SCREENS.jobs);
    assert.equal(new URL(tablet.page.url()).pathname, SCREENS.help);
  } finally {
    await tablet.off();
  }
});

test("the drawing stands at the clock of the site, though nobody writes anything", async () => {
  const tablet = await Tablet.on();
  try {
    const { page } = tablet;
    await author(page, desk, "R. Quill");
    await pair(page, desk, "a tablet left alone");
    await page.locator(".list-row").first().waitFor();
    await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}`);
    // The tablet's own clock is another; what was reckoned by it must not stay.
    await page.locator("svg text", { hasText: "13 May 2025, 1" }).first().waitFor({ timeout: 20_000 });
  } finally {
    await tablet.off();
  }
});
