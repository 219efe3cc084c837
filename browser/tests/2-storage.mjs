// What goes wrong with storage beside a rig: two tabs at once, a tab that dies in mid-entry, a full disk, a browser
// that keeps nothing, a new version of the app while entries wait.

import assert from "node:assert/strict";
import { createServer, request } from "node:http";
import { after, before, test } from "node:test";
import { Desk, folder, freePort, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { allSent, author, enter, fill, keptForOffline, openShaft, pair, save, tapKey, tapKind } from "../lib/rig.mjs";

const JOB = "harrow-vale";
const SHAFT = "S-1";

let desk;

before(async () => {
  const place = folder("storage");
  shaftbook("begin", place);
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", place);
  desk = await Desk.open({ place });
});

after(async () => desk?.stop());

/** A tablet that is paired and has the job. */
async function paired(name, at = desk, options = {}) {
  const tablet = await Tablet.on(options);
  await author(tablet.page, at, "R. Quill");
  await pair(tablet.page, at, name);
  await tablet.page.locator(".list-row").first().waitFor();
  await keptForOffline(tablet.page);
  return tablet;
}

function remarks() {
  const record = shaftbook("export", "record", "--job", desk.place);
  return record.split("\n").filter((line) => line.includes('"kind":"remark"')).map((line) => JSON.parse(line));
}

test("two tabs write at once: both entries stand, one after the other", async () => {
  const tablet = await paired("two tabs");
  try {
    const other = await tablet.newTab();
    for (const page of [tablet.page, other]) {
      await openShaft(page, desk, JOB, SHAFT);
      await tapKind(page, JOB, SHAFT, "remark");
    }
    await fill(tablet.page, "text", "from the first tab");
    await fill(other, "text", "from the second tab");
    await Promise.all([save(tablet.page), save(other)]);
    for (const page of [tablet.page, other]) {
      await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
      await page.locator(".log-row", { hasText: "from the first tab" }).first().waitFor();
      await page.locator(".log-row", { hasText: "from the second tab" }).first().waitFor();
    }
    await allSent(tablet.page);
    const told = remarks().filter((entry) => entry.body?.text?.startsWith("from the") ?? JSON.stringify(entry).includes("from the"));
    assert.equal(told.length, 2);
    assert.equal(new Set(told.map((entry) => `${entry.device} ${entry.seq}`)).size, 2);
  } finally {
    await tablet.off();
  }
});

test("a tab that dies in mid-entry loses nothing that was typed", async () => {
  const tablet = await paired("killed tab");
  try {
    await openShaft(tablet.page, desk, JOB, SHAFT);
    await tapKind(tablet.page, JOB, SHAFT, "remark");
    await fill(tablet.page, "text", "half a sentence about the");
    await tablet.page.waitForTimeout(500);
    // The browser itself lives on: it ends with its last tab.
    const page = await tablet.newTab();
    await tablet.page.close();
    await openShaft(page, desk, JOB, SHAFT);
    await tapKey(page, JOB, SHAFT, "remark");
    await page.getByRole("button", { name: /go on/i }).click();
    await page.waitForFunction(
      (id) => document.getElementById(id)?.value === "half a sentence about the",
      "field-text",
      { timeout: 5000 },
    );
  } finally {
    await tablet.off();
  }
});

test("a full disk is said, and the form keeps what was entered", async () => {
  const tablet = await paired("full disk");
  try {
    // The browser measures the room when it first opens the storage: the disk is full before that.
    await tablet.restart();
    const { page } = tablet;
    const browser = await tablet.context.newCDPSession(page);
    await browser.send("Storage.overrideQuotaForOrigin", { origin: desk.url, quotaSize: 1000 });
    await openShaft(page, desk, JOB, SHAFT);
    await tapKind(page, JOB, SHAFT, "remark");
    await fill(page, "text", "the disk is full");
    await page.locator(".entry-save button[type=submit]").click();
    const notice = page.locator(".notice", { hasText: /room/i }).first();
    await notice.waitFor();
    assert.match(await notice.innerText(), /not saved/i);
    assert.equal(await page.locator("#field-text").inputValue(), "the disk is full");
    await tablet.picture("storage-full");
    await browser.send("Storage.overrideQuotaForOrigin", { origin: desk.url });
    await save(page);
    await page.goto(`${desk.url}/job/${JOB}/shaft/${SHAFT}/log`);
    await page.locator(".log-row", { hasText: "the disk is full" }).first().waitFor();
  } finally {
    await tablet.off();
  }
});

test("a browser that keeps nothing is named before anything is entered", async () => {
  const tablet = await Tablet.on();
  try {
    await tablet.context.addInitScript(() => {
      Object.defineProperty(globalThis, "indexedDB", { value: undefined });
    });
    await tablet.page.goto(desk.url);
    await tablet.page.getByText(/keeps nothing|cannot keep|not kept|kept nothing|nothing .* kept/i).first().waitFor();
    await tablet.picture("storage-none");
  } finally {
    await tablet.off();
  }
});

/** The desk behind a proxy that can pretend that the app has a new version. */
async function behindProxy() {
  const port = await freePort();
  const state = { version: "" };
  const server = createServer((asked, answer) => {
    const on = request({ port: desk.port, host: "127.0.0.1", path: asked.url, method: asked.method, headers: { ...asked.headers, "accept-encoding": "identity" } }, (got) => {
      if (asked.url === "/sw.js" && state.version) {
        const parts = [];
        got.on("data", (part) => parts.push(part));
        got.on("end", () => {
          const text = Buffer.concat(parts).toString().replace(/VERSION = "[^"]*"/, `VERSION = "${state.version}"`);
          const headers = { ...got.headers, "content-length": Buffer.byteLength(text) };
          delete headers.etag;
          answer.writeHead(got.statusCode, headers);
          answer.end(text);
        });
        return;
      }
      answer.writeHead(got.statusCode, got.headers);
      got.pipe(answer);
    });
    on.on("error", () => answer.destroy());
    asked.pipe(on);
  });
  await new Promise((resolve) => server.listen(port, "127.0.0.1", resolve));
  return { url: `http://127.0.0.1:${port}`, state, code: () => desk.code(), close: () => server.closeAllConnections() ?? server.close() };
}

test("a new version waits until a person changes to it, and unsent entries survive", async () => {
  const proxy = await behindProxy();
  const tablet = await paired("new version", proxy);
  try {
    const { page } = tablet;
    await page.route("**/api/v1/entries*", (route) => route.abort());
    await openShaft(page, proxy, JOB, SHAFT);
    await enter(page, JOB, SHAFT, "remark", { text: "before the new version" });
    proxy.state.version = "ffffffffffff";
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
    const change = page.getByRole("button", { name: "Change to it" });
    await change.waitFor();
    await Promise.all([page.waitForEvent("load"), change.click()]);
    const caches = await page.evaluate(() => globalThis.caches.keys());
    assert.ok(caches.some((name) => name.includes("ffffffffffff")), `${caches}`);
    await page.goto(`${proxy.url}/job/${JOB}/shaft/${SHAFT}/log`);
    await page.locator(".log-row", { hasText: "before the new version" }).first().waitFor();
    await page.unroute("**/api/v1/entries*");
    await page.reload();
    await allSent(page);
  } finally {
    await tablet.off();
    proxy.close();
  }
});
