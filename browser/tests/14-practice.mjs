// A trainee practises with no connection from the first load on: begins a made-up day, reads drawn instruments and writes
// them down, sends a wrong load away, and is told at the end what was true. Whatever they write stays apart from every
// real record: on the device, at the desk and in files.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, fill, keptForOffline, pair, save } from "../lib/rig.mjs";

const PRACTICE = "rehearsal-wrong-ticket-3";
const REAL = "harrow-vale";
const MARK = "Rehearsal: made up for practice, never part of a real record.";

let desk;
let tablet;
let page;
let record;

before(async () => {
  const place = folder("practice");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  record = shaftbook("export", "record", "--job", place).trim().split("\n");
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
  await page.goto(desk.url);
  await keptForOffline(page);
  await desk.stop();
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

const asked = () => page.locator(".question-card h2");
const next = () => page.getByRole("button", { name: "On to what comes next" });
const answer = (label) => page.locator(".question-card").getByRole("button", { name: label, exact: true }).click();

async function hole() {
  await page.goto(`${desk.url}/job/${PRACTICE}/hole`);
  await page.getByRole("heading", { level: 1, name: "At the hole" }).waitFor();
}

/** Goes on until something is asked, and gives what. */
async function untilAsked() {
  for (let steps = 0; steps < 60; steps++) {
    if (await asked().count()) return asked().first().innerText();
    if (await next().isEnabled()) await next().click();
    await page.waitForTimeout(150);
  }
  throw new Error("nothing was asked");
}

/** What a person reads off a drawing: between two numbered marks, by the distance. Nothing else of it is looked at. */
function readOff(within, label) {
  return within.locator("figure", { hasText: label }).first().evaluate((figure) => {
    const marks = [...figure.querySelectorAll("text.mark")].map((mark) => ({
      value: Number(mark.textContent),
      x: Number(mark.getAttribute("x")),
      y: Number(mark.getAttribute("y")) - 6,
    }));
    const line = figure.querySelector(".read-here");
    const lying = marks[0].y === marks[1].y;
    const [at, one, other] = lying
      ? [Number(line.getAttribute("x1")), marks[0].x, marks[1].x]
      : [Number(line.getAttribute("y1")), marks[0].y, marks[1].y];
    return marks[0].value + ((at - one) / (other - one)) * (marks[1].value - marks[0].value);
  });
}

test("with the desk gone since the first load a made-up day can be begun", async () => {
  await author(page, desk, "T. Novice");
  await page.goto(desk.url);
  await page.getByRole("link", { name: "Practice" }).first().click();
  await page.getByText("A load of another mix").click();
  await page.getByLabel("Number of the day").fill("3");
  await page.getByText("60 times faster").click();
  await page.getByRole("button", { name: "Begin" }).click();
  await page.waitForURL(`${desk.url}/job/${PRACTICE}/hole`);
  assert.match(await untilAsked(), /ready for concrete/);
});

test("nothing goes on without an answer", async () => {
  await page.locator(".clock-bar-said", { hasText: "The crew waits for your answer." }).waitFor();
  const clock = () => page.locator(".bar").innerText().then((text) => text.match(/\d\d:\d\d:\d\d/)[0]);
  const held = await clock();
  await page.waitForTimeout(2500);
  assert.equal(await clock(), held);
  assert.equal(await next().isEnabled(), false);
});

test("the fluid is read off its instruments, beside the form it is written into", async () => {
  await page.locator(".sight", { hasText: "60.0 ft deep" }).getByRole("link", { name: "Write it down" }).click();
  const beside = page.locator(".beside");
  await beside.waitFor();
  const [density, sand, warm] = await Promise.all(["Mud balance", "Sand tube", "Thermometer"].map((one) => readOff(beside, one)));
  assert.ok(Math.abs(sand - 0.4) < 0.05 && Math.abs(warm - 60) < 0.5 && density > 62 && density < 64, `${density} ${sand} ${warm}`);
  assert.doesNotMatch(await beside.innerText(), /63\.\d|0\.4/, "no figure is printed where the instrument has a scale");
  await fill(page, "place", "hole");
  await fill(page, "stage", "before concrete");
  await fill(page, "depth", "60.0");
  await fill(page, "density", density.toFixed(1));
  await fill(page, "sand", sand.toFixed(1));
  await save(page);
  await hole();
  await page.locator(".sight", { hasText: "60.0 ft deep" }).getByText("written down").waitFor();
});

test("a load is written down off its ticket and let in; the tape is let down and read", async () => {
  await answer("Let the concrete come");
  assert.match(await untilAsked(), /Load 4101/);
  await page.locator(".sight", { hasText: "Load arrived, ticket 4101" }).getByRole("link", { name: "Write it down" }).click();
  await page.locator(".beside", { hasText: "R-4000" }).waitFor();
  await fill(page, "volume", "6.5 cy");
  await save(page);
  await hole();
  await answer("Let it go in");
  await untilAsked();
  await page.getByRole("link", { name: "Write the sounding" }).click();
  await page.getByRole("button", { name: "Let it down at the center" }).click();
  const depth = await readOff(page.locator("form.entry, main"), "Tape, center");
  assert.ok(depth > 46 && depth < 51, `the first load rises to about 48.5 ft; the tape shows ${depth}`);
  await fill(page, "points[0].depth", depth.toFixed(1));
  await save(page);
});

test("after the page was loaded again the clock stands still and everything is there", async () => {
  await page.reload();
  await hole();
  await page.locator(".clock-bar-said").filter({ hasText: /stands still|waits for your answer/ }).waitFor();
  assert.match(await asked().first().innerText(), /Load 4102/);
});

test("a load of another mix is sent away, and the pour goes on to its end", async () => {
  const answered = [];
  for (let questions = 0; questions < 20; questions++) {
    const question = await untilAsked();
    if (/day is over/.test(question)) break;
    const keys = page.locator(".question-card .keys button");
    const label = /4103/.test(question) ? "Send it away" : (await keys.allInnerTexts()).at(/much/.test(question) ? -1 : 0);
    answered.push(`${question} ${label}`);
    await answer(label);
    await page.waitForTimeout(200);
  }
  assert.ok(answered.some((one) => /4103.*Send it away/.test(one)) && answered.some((one) => /4106/.test(one)), answered.join("\n"));
});

test("every screen of it says that it is a rehearsal, and so does its sheet on paper", async () => {
  const job = `/job/${PRACTICE}`;
  const shaft = `${job}/shaft/R-1`;
  const screens = ["/hole", "/people", "/limits", "/files", "/debrief", "/shaft/R-1", "/shaft/R-1/drawings", "/shaft/R-1/findings"];
  for (const path of ["", ...screens].map((end) => job + end).concat([`${shaft}/log`, `${shaft}/sheet`, `${shaft}/enter/remark`])) {
    await page.goto(desk.url + path);
    await page.locator("h1").first().waitFor();
    // The heading of a form may stand a moment before the record is read.
    await page.getByText(MARK).waitFor().catch(() => assert.fail(`${path} does not say that it is a rehearsal`));
  }
  await page.goto(`${desk.url}${shaft}/sheet`);
  await page.locator(".sheet-log tbody").first().waitFor();
  await page.emulateMedia({ media: "print" });
  const printed = await page.getByText("Rehearsal: made up for practice", { exact: true }).locator("visible=true").count();
  await page.emulateMedia({ media: "screen" });
  assert.ok(printed, "the sheet does not say that it is a rehearsal");
});

test("before it is ended the truth is not told", async () => {
  await page.goto(`${desk.url}/job/${PRACTICE}/debrief`);
  await page.getByText("The practice is still going on.").waitFor();
  assert.equal(await page.getByText("leaner mix").count(), 0);
});

test("at the end the truth is laid beside what was written, decided and missed", async () => {
  await hole();
  await page.getByRole("button", { name: /End, and see the truth/ }).first().click();
  await page.waitForURL(/debrief$/);
  const told = page.locator("main");
  await told.getByText("The third load comes with the ticket of a leaner mix.").waitFor();
  const text = await told.innerText();
  assert.match(text, /What was decided kept it out of the shaft\./);
  assert.match(text, /Load 4103\s+Send it away/);
  assert.match(text, /48\.\d ft\s+48\.\d ft/, "the sounding stands beside the true depth");
  assert.match(text, /Not written down[\s\S]*Load arrived, ticket 4102/);
  assert.doesNotMatch(text.split("Not written down")[1], /Load arrived, ticket 4101/);
});

for (const theme of ["light", "dark"]) {
  test(`its screens are good to everybody, ${theme}`, async () => {
    await page.emulateMedia({ colorScheme: theme });
    const form = `/job/${PRACTICE}/shaft/R-1/enter/concrete_sounded`;
    for (const path of ["/practice", `/job/${PRACTICE}/hole`, `/job/${PRACTICE}/debrief`, form]) {
      await page.goto(desk.url + path);
      await page.locator("h1").first().waitFor();
      await page.waitForTimeout(200);
      assert.deepEqual(await tablet.axe(), [], path);
    }
  });
}

test("the screens at the hole pass too, on a phone and in both themes, with keys for gloves and nothing out of the side", async () => {
  const phone = await Tablet.on({ size: "phone" });
  await desk.start();
  try {
    await author(phone.page, desk, "T. Novice");
    await phone.page.goto(`${desk.url}/practice`);
    await phone.page.getByText("Meters, European style").click();
    await phone.page.getByText("Sediment after waiting").click();
    await phone.page.getByLabel("Number of the day").fill("1");
    await phone.page.getByRole("button", { name: "Begin" }).click();
    await phone.page.waitForURL(/rehearsal-sediment-metric-1\/hole$/);
    await phone.page.getByRole("button", { name: "On to what comes next" }).click();
    await phone.page.locator(".sight").first().waitFor();
    for (const theme of ["light", "dark"]) {
      await phone.page.emulateMedia({ colorScheme: theme });
      assert.deepEqual(await phone.axe(), [], theme);
      await phone.picture(`practice-${theme}-phone`);
    }
    const odd = await phone.page.evaluate(() => {
      const keys = [...document.querySelectorAll("main button, main a.key, main summary, main label.choice")];
      const small = keys.filter((one) => one.checkVisibility()).map((one) => one.getBoundingClientRect().height);
      return { wide: document.documentElement.scrollWidth - document.documentElement.clientWidth, least: Math.min(...small) };
    });
    assert.ok(odd.wide <= 1 && odd.least >= 47.5, JSON.stringify(odd));
  } finally {
    await phone.off();
  }
});

test("nothing of it is sent to the desk", async () => {
  await pair(page, desk, "tablet of a trainee");
  await allSent(page);
  await page.getByRole("link", { name: /Harrow Vale/ }).first().waitFor();
  const jobs = await page.locator(".list-row").allInnerTexts();
  assert.ok(jobs.some((one) => /rehearsal/.test(one)), "on this device it is there, with its mark");
  const kept = JSON.parse(shaftbook("inspect", desk.place, "--json"));
  assert.doesNotMatch(JSON.stringify(kept), /rehearsal-/);
  assert.equal(shaftbook("export", "record", "--job", desk.place).trim().split("\n").length, record.length);
});

test("its file read into a job adds nothing to that job, in the app and with the program", async () => {
  await page.goto(`${desk.url}/job/${PRACTICE}/files`);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save the record as a file" }).click(),
  ]);
  const file = join(folder("practice-file"), "practice.jsonl");
  await download.saveAs(file);
  const lines = readFileSync(file, "utf8").trim().split("\n").map((line) => JSON.parse(line));
  assert.ok(lines.length > 40 && lines.every((line) => line.job === PRACTICE), "each line carries the mark under its signature");
  await page.goto(`${desk.url}/job/${REAL}/files`);
  await page.locator("input[type=file]").setInputFiles(file);
  await page.waitForTimeout(2000);
  await page.goto(`${desk.url}/job/${REAL}/files`);
  await page.getByText(`${record.length} entries, each signed.`).waitFor();
  await allSent(page);
  assert.doesNotMatch(shaftbook("export", "record", "--job", desk.place), /rehearsal-/);
  await desk.stop();
  assert.throws(() => shaftbook("merge", file, "--job", desk.place), /a rehearsal never becomes part of a record/);
});
