// What a person who never saw the app stumbled over: a shaft that is not there, a name that lacks, a key that does
// nothing and does not say why, a clock of nowhere, a bar in two lines, drawings too small, depths without their zero,
// and a bar that says "All sent" before anybody counted.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, enter, fill, keptForOffline, openShaft, pair, shaftPath, tapKind } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-2";

let desk;
let phone;
let page;

before(async () => {
  const notes = ["1-job", "3-shaft-s2"].map((name) => `demo/harrow-vale/${name}.toml`);
  desk = await Desk.open({ place: folder("newcomer"), words: ["--shaft", SHAFT, "--from", "11:50", "--speed", "1", "--relive", ...notes] });
  phone = await Tablet.on({ size: "phone" });
  page = phone.page;
});

after(async () => {
  await phone?.off();
  await desk?.stop();
});

/** Every text the outbox in the bar shows from here on, each once, also over a reload. */
async function hearOutbox(on) {
  await on.addInitScript(() => {
    const heard = (globalThis.outboxSaid = []);
    const look = () => {
      const said = document.querySelector(".bar-outbox-count")?.textContent;
      if (said && heard.at(-1) !== said) heard.push(said);
    };
    new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true });
  });
}

const outbox = (on) => on.locator(".bar-outbox-count").innerText();

/** The places of what stands in the bar. */
function bar(on) {
  return on.locator(".bar").evaluate((bar) => {
    const seen = [...bar.children].filter((one) => one.getBoundingClientRect().width > 0);
    const box = bar.getBoundingClientRect();
    return {
      height: box.height,
      out: seen.filter((one) => one.getBoundingClientRect().right > box.right + 1).map((one) => one.className),
      middles: seen.map((one) => one.getBoundingClientRect()).map((one) => Math.round(one.top + one.height / 2)),
    };
  });
}

test("the key that pairs says what it still lacks", async () => {
  await page.goto(`${desk.url}/pair`);
  const key = page.getByRole("button", { name: "Pair" });
  const said = page.locator(".row [role=status]");
  assert.match(await said.innerText(), /code.*name/i);
  await page.getByLabel("Code").fill("ABCD1234");
  assert.match(await said.innerText(), /name/i);
  assert.ok(await key.isDisabled());
  await page.getByLabel("Name of this device").fill("a phone");
  assert.equal(await said.innerText(), "");
  assert.ok(await key.isEnabled());
});

test("where no job is in sight there is no clock of a site", async () => {
  assert.equal(await page.locator(".bar-clock").count(), 0);
  await pair(page, desk, "a phone");
  await page.locator(".list-row").first().waitFor();
  assert.equal(await page.locator(".bar-clock").count(), 0);
});

test("without a name the entry is not saved, the reason stands beside the key, the name has the focus", async () => {
  await openShaft(page, desk, JOB, SHAFT);
  await tapKind(page, JOB, SHAFT, "remark");
  await fill(page, "text", "written by nobody yet");
  await page.locator(".entry-save button[type=submit]").click();
  const said = page.locator(".entry-save .entry-wrong");
  assert.match(await said.innerText(), /not saved.*name/i);
  assert.equal(await page.evaluate(() => document.activeElement.id), "author");
  await phone.picture("newcomer-1-no-name");
  await page.keyboard.type("R. Quill");
  await page.keyboard.press("Tab");
  assert.equal(await said.innerText(), "");
  await page.locator(".entry-save button[type=submit]").click();
  await page.waitForURL(desk.url + shaftPath(JOB, SHAFT));
});

test("a shaft nobody planned is said to be none, with the way back and the way to plan it", async () => {
  for (const name of ["S-9", "s2"]) {
    await page.goto(desk.url + shaftPath(JOB, name));
    await page.getByRole("heading", { name: `No shaft ${name} is planned in this job` }).waitFor();
    assert.equal(await page.locator(".shaft-keys").count(), 0, "there is nothing to enter");
  }
  await phone.picture("newcomer-2-no-shaft");
  await page.getByRole("link", { name: "Plan shaft s2" }).click();
  await page.locator("form.entry").waitFor();
  assert.equal(new URL(page.url()).pathname, `${shaftPath(JOB, "s2")}/enter/shaft_planned`);
  await page.goBack();
  await page.getByRole("link", { name: "To the shafts of the job" }).click();
  await page.waitForURL(`${desk.url}/job/${JOB}`);
  await page.locator(".list-name", { hasText: SHAFT }).waitFor();
});

test("the bar of a phone is one line, on every screen", async () => {
  for (const path of ["/", "/settings", `/job/${JOB}`, shaftPath(JOB, SHAFT), `${shaftPath(JOB, SHAFT)}/enter/remark`]) {
    await page.goto(desk.url + path);
    await page.locator("h1").first().waitFor();
    const { height, out, middles } = await bar(page);
    assert.ok(height <= 62, `${path}: ${height} px high`);
    assert.deepEqual(out, [], path);
    assert.ok(Math.max(...middles) - Math.min(...middles) <= 6, `${path}: ${middles}`);
  }
});

test("on a phone one control chooses the drawing, and the finger moves it", async () => {
  await page.goto(`${desk.url}${shaftPath(JOB, SHAFT)}/drawings`);
  await page.locator(".drawing-scroll svg").waitFor();
  assert.equal(await page.locator(".drawing-keys button:visible").count(), 0);
  await page.locator(".drawing-pick select").selectOption("curve");
  await page.locator(".drawing-scroll svg text", { hasText: /volume/i }).first().waitFor();
  const drawing = page.locator(".drawing-scroll");
  const { wide, room } = await drawing.evaluate((one) => ({ wide: one.scrollWidth, room: one.clientWidth }));
  assert.equal(room, 390, "over the whole width of the phone");
  assert.ok(wide >= 1.7 * room, `${wide} px of drawing in ${room}`);
  await drawing.evaluate((one) => one.scrollTo({ left: 300 }));
  assert.equal(await drawing.evaluate((one) => one.scrollLeft), 300);
  await phone.picture("newcomer-3-drawing");
});

test("a depth says what it is measured from", async () => {
  await openShaft(page, desk, JOB, SHAFT);
  const depth = page.locator(".figure", { hasText: "Depth to concrete" });
  await depth.waitFor();
  assert.match(await depth.innerText(), /26\.5\s+ft\s+below top of casing/);
  assert.match(await page.locator(".shaft-head").innerText(), /59\.5 ft below ground/);
});

test("a form opened by its address is stamped by the clock of the job, and no other clock is ever shown", async () => {
  const on = await phone.newTab();
  await on.addInitScript(() => {
    const shown = (globalThis.clocksShown = []);
    const look = () => {
      for (const one of document.querySelectorAll(".bar-clock, .stamp-day, .drawing")) {
        const said = one.textContent.match(/\d+ \w{3} (?!2025)\d{4}|20\d\d-\d\d-\d\d/);
        if (said) shown.push(`${one.className}: ${said}`);
      }
      const hour = document.querySelector(".bar-time")?.textContent;
      if (hour && !/^1[12]:/.test(hour)) shown.push(`bar: ${hour}`);
    };
    new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true });
  });
  try {
    // The desk is silent: what the device knows itself has to be enough, and its answer must not be waited for.
    for (const silent of [true, false]) {
      await on.unroute("**/api/v1/**").catch(() => {});
      if (silent) await on.route("**/api/v1/**", (route) => route.abort());
      await on.goto(`${desk.url}${shaftPath(JOB, SHAFT)}/enter/concrete_sounded`);
      await on.locator("form.entry").waitFor();
      await on.locator(".bar-time").waitFor({ state: "attached" });
      await on.waitForTimeout(600);
      assert.match(await on.locator(".stamp-day").textContent(), /^13 May 2025$/);
      const [stamp, clock] = [await on.locator(".stamp-time").inputValue(), await on.locator(".bar-time").textContent()];
      const minutes = (text) => text.split(":").slice(0, 2).reduce((sum, part) => 60 * sum + Number(part), 0);
      assert.ok(Math.abs(minutes(clock) - minutes(stamp)) <= 1, `stamped ${stamp} at ${clock}`);
      assert.equal(await on.locator(".stamp-late").textContent(), "");
      assert.deepEqual(await on.evaluate(() => globalThis.clocksShown), []);
      await on.goto(`${desk.url}/job/${JOB}`);
      await on.locator(".drawing svg text", { hasText: "13 May 2025, 1" }).waitFor();
      assert.deepEqual(await on.evaluate(() => globalThis.clocksShown), []);
      await on.locator(".list-row .mark").first().waitFor();
    }
  } finally {
    await on.close();
  }
});

test("nothing is said to be sent before it was counted, nor in the moment after it was saved", async () => {
  const place = folder("counts");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  const desk = await Desk.open({ place });
  const tablet = await Tablet.on();
  const on = tablet.page;
  try {
    await hearOutbox(on);
    await author(on, desk, "R. Quill");
    await pair(on, desk, "counts");
    await on.locator(".list-row").first().waitFor();
    await keptForOffline(on);
    await allSent(on);
    await desk.stop();
    await openShaft(on, desk, JOB, SHAFT);
    await on.locator(".bar-outbox-count", { hasText: "Nothing to send" }).waitFor();
    await on.locator(".shaft-figures .figure").first().waitFor();
    await on.evaluate(() => (globalThis.outboxSaid.length = 0));
    await enter(on, JOB, SHAFT, "remark", { text: "saved without a connection" });
    assert.equal(await outbox(on), "1 to send");
    await on.reload();
    await on.locator(".bar-outbox-count", { hasText: "1 to send" }).waitFor();
    assert.deepEqual(await on.evaluate(() => globalThis.outboxSaid), ["Outbox", "1 to send"]);
    await desk.start();
    await allSent(on);
  } finally {
    await tablet.off();
    await desk.stop();
  }
});

test("after a demonstration has closed its job keeps its clock, and a true job beside it has the true one", async () => {
  const place = folder("closed");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  const desk = await Desk.open({ place, words: ["--rehearse", "neck", "--speed", "40"] });
  const tablet = await Tablet.on();
  const on = tablet.page;
  const day = () => on.locator(".bar-day").textContent();
  const clock = () => on.locator(".bar-time").innerText();
  const stage = () => on.locator(".shaft-stage").innerText();
  try {
    await author(on, desk, "R. Quill");
    await pair(on, desk, "closed");
    await on.getByRole("link", { name: /Rehearsal/ }).first().click();
    await on.locator(".list-name").first().click();
    await on.locator(".shaft-figures .figure").first().waitFor();
    await keptForOffline(on);
    await desk.stop();
    const [seen, at, shown] = [await day(), await clock(), await stage()];
    assert.match(seen, /2031/);
    await on.reload();
    await on.locator(".shaft-figures .figure").first().waitFor();
    assert.equal(await day(), seen);
    assert.ok((await clock()) > at, "the clock has not gone back");
    assert.equal(await stage(), shown);
    assert.match(await on.locator(".banner-demonstration").innerText(), /40 times faster/);
    await tablet.picture("newcomer-4-demonstration-over");
    await on.goto(`${desk.url}/job/${JOB}`);
    await on.locator(".bar-time").waitFor();
    assert.match(await day(), new RegExp(String(new Date().getFullYear())));
    assert.equal(await on.locator(".banner-demonstration").count(), 0);
  } finally {
    await tablet.off();
    await desk.stop();
  }
});

test("a true job that was lived through again has the true time as soon as a desk serves it for good", async () => {
  const files = folder("true-notes");
  const notes = ["1-job", "3-shaft-s2"].map((name) => {
    const path = join(files, `${name}.toml`);
    writeFileSync(path, readFileSync(`demo/harrow-vale/${name}.toml`, "utf8").replace(/^rehearsal = true.*$/m, ""));
    return path;
  });
  const words = ["--shaft", SHAFT, "--from", "11:50", "--speed", "1", "--relive", ...notes];
  const desk = await Desk.open({ place: folder("true-job"), words });
  const tablet = await Tablet.on();
  const on = tablet.page;
  const day = (year) => on.waitForFunction((year) => document.querySelector(".bar-day")?.textContent.includes(year), year);
  try {
    await author(on, desk, "R. Quill");
    await pair(on, desk, "true job");
    await on.locator(".list-row").first().waitFor();
    await openShaft(on, desk, JOB, SHAFT);
    await day("2025");
    await desk.stop();
    desk.words = [];
    await desk.start();
    await on.reload();
    await day(String(new Date().getFullYear()));
    await on.locator(".banner-demonstration").waitFor({ state: "detached", timeout: 10_000 });
  } finally {
    await tablet.off();
    await desk.stop();
  }
});
