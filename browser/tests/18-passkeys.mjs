// Passkeys: added on one's own page, used to come in, removed; told where they cannot be used.
//
// The device is one of Chromium's own, played over its debugging interface: it holds keys and sees who is there.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder, freePort, shaftbook } from "../lib/desk.mjs";
import { looked as lookedAt } from "../lib/looked.mjs";
import { Tablet } from "../lib/tablet.mjs";

const PASSWORD = "rain on the rig again";

let desk;
let tablet;
let page;
let devices;
let device;
/** The office by its name; a name is what a passkey is bound to. */
let named;

before(async () => {
  const port = await freePort();
  named = `http://localhost:${port}`;
  desk = new Desk(folder("passkeys"), port, ["--name", "Harrow Vale office"]);
  desk.reachedAt = named;
  await desk.start();
  tablet = await Tablet.on({ size: "desktop" });
  page = tablet.page;
  devices = await page.context().newCDPSession(page);
  await devices.send("WebAuthn.enable");
  const options = {
    protocol: "ctap2",
    transport: "internal",
    hasResidentKey: true,
    hasUserVerification: true,
    isUserVerified: true,
    automaticPresenceSimulation: true,
  };
  device = (await devices.send("WebAuthn.addVirtualAuthenticator", { options })).authenticatorId;
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

const looked = (name) => lookedAt(tablet, `passkeys-${name}`);

const keys = async () => (await devices.send("WebAuthn.getCredentials", { authenticatorId: device })).credentials;

async function add(name) {
  await page.getByLabel("What you call it").fill(name);
  await page.getByRole("button", { name: "Add a passkey" }).click();
}

async function signOut() {
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForURL(`${named}/people/sign-in`);
}

const useKey = () => page.getByRole("button", { name: "Sign in with a passkey" }).click();

test("a passkey is added on one's own page", async () => {
  const { link } = JSON.parse(shaftbook("people", "add", desk.place, "d.pike", "--reached-at", named, "--json"));
  await page.goto(link);
  await page.getByLabel("New password").fill(PASSWORD);
  await page.getByLabel("The same again").fill(PASSWORD);
  await page.getByRole("button", { name: "Choose this password" }).click();
  await page.waitForURL(`${named}/people`);
  await add("Phone <b>");
  await page.getByText("not used yet").waitFor();
  await page.getByText("Phone <b>").waitFor();
  const [key] = await keys();
  assert.deepEqual([key.rpId, key.isResidentCredential, key.userName], ["localhost", true, "d.pike"]);
  await looked("own");
});

test("a device that has one is not given a second", async () => {
  await add("Again");
  await page.locator("#passkey-said").filter({ hasText: /\S/ }).waitFor();
  assert.equal((await keys()).length, 1);
});

test("one comes in with it, without a name or a password", async () => {
  await signOut();
  await looked("sign-in");
  await useKey();
  await page.waitForURL(`${named}/people`);
  await page.getByText("Signed in as d.pike").waitFor();
  await page.getByText("last used").waitFor();
  const session = (await page.context().cookies()).find((cookie) => cookie.name === "shaftbook_session");
  assert.deepEqual([session.httpOnly, session.sameSite], [true, "Strict"]);
});

test("a device that does not see who is there comes in with none", async () => {
  await signOut();
  await devices.send("WebAuthn.setUserVerified", { authenticatorId: device, isUserVerified: false });
  await useKey();
  await page.locator("#passkey-said").filter({ hasText: "Nothing was done" }).waitFor();
  await devices.send("WebAuthn.setUserVerified", { authenticatorId: device, isUserVerified: true });
});

test("by another address the page says where passkeys are used", async () => {
  await page.goto(`${desk.url}/people/sign-in`);
  await page.getByText(`Passkeys of this office are used at ${named}`).waitFor();
  assert.equal(await page.getByRole("button", { name: "Sign in with a passkey" }).count(), 0);
  await looked("elsewhere");
});

test("a page of another origin gets no answer the office would take", async () => {
  const { createServer } = await import("node:http");
  const elsewhere = createServer((_, answer) => answer.writeHead(200, { "content-type": "text/html" }).end("<p>Elsewhere"));
  await new Promise((resolve) => elsewhere.listen(0, "127.0.0.1", resolve));
  // Another port of the same name: the browser gives the passkey out, and the answer says where it was asked for.
  const begun = await fetch(`${desk.url}/people/sign-in/passkey/begin`, {
    method: "POST",
    headers: { "sec-fetch-site": "same-origin" },
  }).then((answer) => answer.json());
  await page.goto(`http://localhost:${elsewhere.address().port}/`);
  const answer = await page.evaluate(async (challenge) => {
    const bytes = (text) => Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (one) => one.charCodeAt(0));
    const plain = (buffer) =>
      btoa(String.fromCharCode(...new Uint8Array(buffer))).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
    const publicKey = { challenge: bytes(challenge), rpId: "localhost", userVerification: "required" };
    const { id, rawId, type, response } = await navigator.credentials.get({ publicKey });
    const names = ["clientDataJSON", "authenticatorData", "signature", "userHandle"];
    return { id, rawId: plain(rawId), type, response: Object.fromEntries(names.map((name) => [name, plain(response[name])])) };
  }, begun.question.challenge);
  elsewhere.close();
  const refused = await fetch(`${desk.url}/people/sign-in/passkey`, {
    method: "POST",
    headers: { "sec-fetch-site": "same-origin" },
    body: JSON.stringify({ ceremony: begun.ceremony, answer }),
  });
  assert.deepEqual([refused.status, (await refused.json()).code], [403, "passkey-wrong"]);
});

test("one that was removed opens nothing", async () => {
  await page.goto(`${named}/people/sign-in`);
  await useKey();
  await page.waitForURL(`${named}/people`);
  await page.getByRole("button", { name: "Remove Phone <b>" }).click();
  await page.getByText("not used yet").waitFor({ state: "detached" });
  await signOut();
  await useKey();
  await page.getByText("The office knows no such passkey").waitFor();
  await looked("refused");
  // The password still is a way in.
  await page.getByLabel("Name", { exact: true }).fill("d.pike");
  await page.getByLabel("Password", { exact: true }).fill(PASSWORD);
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  await page.waitForURL(`${named}/people`);
});
