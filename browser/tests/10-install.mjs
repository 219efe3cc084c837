// On the home screen: a manifest the browser takes, icons of our own at the sizes they say, and nothing that stands in
// the way of installing.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { keptForOffline } from "../lib/rig.mjs";

let desk;
let tablet;
let page;

before(async () => {
  const place = folder("install");
  shaftbook("begin", place);
  desk = await Desk.open({ place });
  tablet = await Tablet.on();
  page = tablet.page;
  await page.goto(desk.url);
  await keptForOffline(page);
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

/** Width and height of a PNG, out of its first chunk; throws where the bytes are no PNG. */
function sizeOf(png) {
  assert.equal(png.subarray(0, 8).toString("latin1"), "\x89PNG\r\n\x1a\n");
  return `${png.readUInt32BE(16)}x${png.readUInt32BE(20)}`;
}

async function fetched(path) {
  const answer = await page.request.get(desk.url + path);
  assert.equal(answer.status(), 200, path);
  return { type: answer.headers()["content-type"], body: await answer.body() };
}

test("the browser reads the manifest without a complaint", async () => {
  const browser = await tablet.context.newCDPSession(page);
  const { errors, data } = await browser.send("Page.getAppManifest");
  assert.deepEqual(errors, []);
  const manifest = JSON.parse(data);
  for (const part of ["name", "short_name", "start_url", "display", "background_color", "theme_color", "icons"]) {
    assert.ok(manifest[part], part);
  }
  assert.equal(manifest.display, "standalone");
  const { type } = await fetched("/manifest.webmanifest");
  assert.match(type, /^application\/manifest\+json/);
});

test("every icon is there at the size the manifest says, one of them maskable", async () => {
  const manifest = JSON.parse((await fetched("/manifest.webmanifest")).body.toString());
  for (const { src, sizes, type: said } of manifest.icons) {
    const { type, body } = await fetched(src);
    assert.equal(type.split(";")[0], said, src);
    if (said === "image/png") assert.equal(sizeOf(body), sizes, src);
    else assert.match(body.toString(), /^<svg/);
  }
  const sizes = manifest.icons.map((icon) => icon.sizes);
  assert.ok(sizes.includes("192x192") && sizes.includes("512x512"), sizes.join(" "));
  assert.ok(manifest.icons.some((icon) => icon.purpose.split(" ").includes("maskable")));
});

test("the icon for a home screen without a manifest is named by the page", async () => {
  const link = page.locator('link[rel="apple-touch-icon"]');
  const { body } = await fetched(await link.getAttribute("href"));
  assert.equal(sizeOf(body), await link.getAttribute("sizes"));
});

test("nothing stands in the way of installing", async () => {
  const browser = await tablet.context.newCDPSession(page);
  const { installabilityErrors } = await browser.send("Page.getInstallabilityErrors");
  // A profile without a person cannot install anything; everything else would be our fault.
  const ours = installabilityErrors.filter((error) => error.errorId !== "in-incognito");
  assert.deepEqual(ours, []);
});

test("the icons are kept for when the desk is gone", async () => {
  await desk.stop();
  for (const path of ["/icon-192.png", "/icon-512.png", "/icon-maskable.png", "/icon-apple-touch.png", "/icon.svg"]) {
    const size = await page.evaluate(async (path) => (await (await fetch(path)).blob()).size, path);
    assert.ok(size > 100, path);
  }
});
