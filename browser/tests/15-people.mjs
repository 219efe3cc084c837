// People: from the invitation on the console to a tablet that writes for its holder, and every page at every size.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Desk, folder, shaftbook } from "../lib/desk.mjs";
import { pair } from "../lib/rig.mjs";
import { looked as lookedAt } from "../lib/looked.mjs";
import { Tablet } from "../lib/tablet.mjs";

const PASSWORD = "rain on the rig again";
const ODD = `<img src=x onerror="document.title='owned'">`;

let desk;
let tablet;
let page;

before(async () => {
  desk = await Desk.open({ words: ["--name", "Harrow Vale office"] });
  shaftbook("enter", "demo/harrow-vale/1-job.toml", "--job", desk.place);
  tablet = await Tablet.on({ size: "desktop" });
  page = tablet.page;
});

after(async () => {
  await tablet?.off();
  await desk?.stop();
});

const looked = (name) => lookedAt(tablet, `people-${name}`);

async function signIn(name, password) {
  await page.goto(`${desk.url}/people/sign-in`);
  await page.getByLabel("Name", { exact: true }).fill(name);
  await page.getByLabel("Password", { exact: true }).fill(password);
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
}

async function choosePassword() {
  await page.getByLabel("New password").fill(PASSWORD);
  await page.getByLabel("The same again").fill(PASSWORD);
  await page.getByRole("button", { name: "Choose this password" }).click();
  await page.waitForURL(`${desk.url}/people`);
}

test("before there are people the page says how to begin", async () => {
  await page.goto(`${desk.url}/people`);
  await page.waitForURL(`${desk.url}/people/sign-in`);
  await page.getByText("There are no people here yet").waitFor();
  await looked("none");
});

test("the first person comes in by the invitation of the console", async () => {
  const { link } = JSON.parse(shaftbook("people", "add", desk.place, "d.pike", "--json"));
  await page.goto(link);
  // The script takes the secret out of the address and puts it into the field.
  assert.equal(await page.getByLabel("Invitation", { exact: true }).inputValue(), link.split("#")[1]);
  assert.equal(page.url(), `${desk.url}/people/invited`);
  await looked("invited");
  await choosePassword();
  await page.getByText("manager on every job").waitFor();
  await looked("own");
  const cookies = await page.context().cookies();
  const session = cookies.find((cookie) => cookie.name === "shaftbook_session");
  assert.deepEqual([session.httpOnly, session.sameSite, session.path], [true, "Strict", "/"]);
});

test("roles are given, a new name is an invitation, and every page can be read", async () => {
  await page.getByRole("link", { name: "The people and devices of the office" }).click();
  await page.getByLabel("Name", { exact: true }).fill("a.hall");
  await page.getByLabel("Role", { exact: true }).selectOption("inspector");
  await page.getByLabel("Job; empty is every job").fill("harrow-vale");
  await page.getByRole("button", { name: "Give the role" }).click();
  const link = await page.locator(".link").innerText();
  assert.match(link, /\/people\/invited#[0-9a-f]{64}$/);
  await looked("invitation");
  await page.goto(`${desk.url}/people/office`);
  await page.getByText("invited, has not come yet").waitFor();
  await looked("office");
  await page.getByRole("link", { name: "harrow-vale", exact: true }).click();
  await page.getByRole("heading", { name: "The people of harrow-vale" }).waitFor();
  await looked("job");
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForURL(`${desk.url}/people/sign-in`);
  await page.goto(link);
  await choosePassword();
  await page.getByText("inspector on harrow-vale").waitFor();
});

test("the last manager is not let go, and the page says why", async () => {
  await page.getByRole("button", { name: "Sign out" }).click();
  await signIn("d.pike", PASSWORD);
  await page.waitForURL(`${desk.url}/people`);
  await page.goto(`${desk.url}/people/office`);
  await page.getByRole("button", { name: "d.pike is no longer manager" }).click();
  await page.getByText("Nobody but d.pike manages the office and comes in.").waitFor();
  await looked("last");
  await page.goto(`${desk.url}/people/office`);
  await page.getByLabel("Person").selectOption({ label: "a.hall" });
  await page.getByLabel("Name under a record; empty is the name to sign in with").fill("Anna Hall");
  await page.getByRole("button", { name: "Keep the name" }).click();
  await page.getByText("a.hall (Anna Hall)").first().waitFor();
  await page.getByRole("button", { name: "Sign out" }).click();
  await signIn("a.hall", PASSWORD);
  await page.getByText("Anna Hall").waitFor();
});

test("what is refused is a page with a way back", async () => {
  await page.goto(`${desk.url}/people/office`);
  await page.getByText("a.hall has no role that allows this.").waitFor();
  await looked("refused");
  await signIn("a.hall", "not the password at all");
  await page.getByText("The name or the password is not right.").waitFor();
  await looked("wrong");
});

test("a device is paired for its holder; let go, what it brings is set aside and let in with a reason", async () => {
  await signIn("a.hall", PASSWORD);
  await page.waitForURL(`${desk.url}/people`);
  await page.getByRole("button", { name: "New code for a device" }).click();
  const code = await page.locator(".code").innerText();
  await looked("code");
  const device = "ab".repeat(32);
  const paired = await fetch(`${desk.url}/api/v1/pair`, {
    method: "POST",
    body: JSON.stringify({ code, name: ODD, device }),
  }).then((answer) => answer.json());
  await page.goto(`${desk.url}/people`);
  await page.getByRole("button", { name: /^Let .* go$/ }).click();
  // No passkey before, and no device either now.
  await page.getByText("None yet.").nth(1).waitFor();
  // What it wrote meanwhile, on another job; and a line the desk has already.
  const other = folder("people-lindmoor");
  shaftbook("begin", other);
  shaftbook("enter", "demo/lindmoor/1-auftrag.toml", "--job", other);
  const lines = [other, desk.place].map((place) => shaftbook("export", "record", "--job", place, "--out", "-").split("\n")[0]);
  const pushed = await fetch(`${desk.url}/api/v1/entries`, {
    method: "POST",
    headers: { authorization: `Bearer ${paired.token}` },
    body: lines.join("\n"),
  }).then((answer) => answer.json());
  assert.equal(pushed.answers[0].refusal.code, "set-aside");
  assert.equal(pushed.answers[1].state, "known");
  await signIn("d.pike", PASSWORD);
  await page.waitForURL(`${desk.url}/people`);
  await page.goto(`${desk.url}/people/jobs/lindmoor/aside`);
  await page.getByLabel("Why they may be in the record").waitFor();
  await looked("aside");
  await page.getByLabel("Why they may be in the record").fill("Seen with the crew.");
  await page.getByRole("button", { name: "Let these in" }).click();
  await page.getByText("Nothing is set aside.").waitFor();
  await page.goto(`${desk.url}/people/office/sign-ins`);
  await page.getByText("device-let-go").waitFor();
  await looked("sign-ins");
  assert.match(await page.title(), /Sign-ins and refusals/, "a name that is markup is a name");
});

test("a tablet that nobody has named writes under the name of whom its code belonged to", async () => {
  await signIn("a.hall", PASSWORD);
  await page.waitForURL(`${desk.url}/people`);
  await page.getByRole("button", { name: "New code for a device" }).click();
  const code = await page.locator(".code").innerText();
  const own = await Tablet.on();
  try {
    await pair(own.page, desk, "tablet of a.hall", code);
    await own.page.goto(`${desk.url}/settings`);
    const name = own.page.getByLabel(/your name/i).first();
    await name.waitFor();
    await own.page.waitForFunction(() => [...document.querySelectorAll("input")].some((one) => one.value === "Anna Hall"));
    assert.equal(await name.inputValue(), "Anna Hall");
  } finally {
    await own.off();
  }
});

test("a page elsewhere sends no form along", async () => {
  // Another port is another origin, and the same site: SameSite alone would let the cookie go along.
  const { createServer } = await import("node:http");
  const form = `<form method="post" action="${desk.url}/people/office/give"><input name="name" value="intruder">
    <input name="role" value="manager"><input name="job" value=""></form><script>document.forms[0].submit()</script>`;
  const elsewhere = createServer((_, answer) => answer.writeHead(200, { "content-type": "text/html" }).end(form));
  await new Promise((resolve) => elsewhere.listen(0, "127.0.0.1", resolve));
  await page.goto(`http://127.0.0.1:${elsewhere.address().port}/`);
  await page.getByText("This did not come from a page of this office.").waitFor();
  elsewhere.close();
  const people = JSON.parse(shaftbook("people", "list", desk.place, "--json")).people;
  assert.deepEqual(people.map((person) => person.name), ["a.hall", "d.pike"]);
});
