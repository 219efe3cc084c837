// What hands do at the rig: open a shaft, tap a key, write a value, save.

/** The id of a field of a form, as the app makes it. */
export function fieldId(path) {
  return `field-${path.replace(/[^A-Za-z0-9_]/g, "-")}`;
}

/** The address of a shaft. */
export function shaftPath(job, shaft) {
  return `/job/${job}/shaft/${shaft}`;
}

/** Waits until a file of the app is all the page needs: the worker has it. */
export async function keptForOffline(page) {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    if (!registration.active) throw new Error("no worker");
    if (!navigator.serviceWorker.controller) {
      await new Promise((resolve) => navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true }));
    }
  });
}

/** Opens a shaft through its address, as a bookmark does. */
export async function openShaft(page, desk, job, shaft) {
  await page.goto(`${desk.url}${shaftPath(job, shaft)}`);
  await page.getByRole("heading", { level: 1 }).filter({ hasText: shaft }).waitFor();
}

/** Taps the key of a kind of entry, and waits for its form. */
export async function tapKind(page, job, shaft, kind) {
  await tapKey(page, job, shaft, kind);
  await page.locator("form.entry").waitFor();
}

/** Taps the key of a kind of entry on the screen of a shaft; where it is no key of the stage, among all of them. */
export async function tapKey(page, job, shaft, kind) {
  const key = page.locator(`.shaft-keys a[href="${shaftPath(job, shaft)}/enter/${kind}"]`);
  if (!(await key.first().isVisible())) await page.getByRole("button", { name: "All entries" }).click();
  await key.locator("visible=true").first().click();
}

/** Writes a value into a field, whatever it is made of; adds the row of a list where it is missing. */
export async function fill(page, path, text) {
  const field = page.locator(`[id="${fieldId(path)}"]`);
  if (!(await field.count())) {
    const list = path.split("[")[0];
    await page.locator(".fields button.key", { hasText: /add|another|point|piece/i }).first().click();
    await field.waitFor({ state: "attached", timeout: 3000 }).catch(() => {
      throw new Error(`no field ${path} (list ${list})`);
    });
  }
  const more = page.locator("details.more:not([open]) summary");
  if (!(await field.isVisible()) && (await more.count())) await more.click();
  const kind = await field.evaluate((element) => (element.type === "radio" ? "radio" : element.tagName));
  if (kind === "radio") {
    const group = page.locator(`fieldset:has([id="${fieldId(path)}"]) label.choice`);
    await group.filter({ hasText: text }).first().click();
  } else if (kind === "SELECT") {
    await field.selectOption(text);
  } else {
    await field.fill(text);
  }
}

/** Saves and waits until the app says that it is saved. */
export async function save(page) {
  await page.locator(".entry-save button[type=submit]").click();
  await page.waitForURL((url) => !url.pathname.includes("/enter/"), { timeout: 10_000 }).catch(async () => {
    const said = await page.locator(".field-fault, .notice, .field-question, .entry-save").allInnerTexts();
    throw new Error(`the entry was not saved at ${page.url()}: ${said.join(" | ")}`);
  });
}

/** One entry from the screen of the shaft and back to it. */
export async function enter(page, job, shaft, kind, fields) {
  await tapKind(page, job, shaft, kind);
  for (const [path, text] of Object.entries(fields)) await fill(page, path, text);
  await save(page);
}

/** What stands on a key that writes another sign. */
const FACES = { "'": "ft", '"': "in" };

/** Taps the keys of the keypad that stand for a text. */
export async function tapPad(page, text) {
  for (const sign of text) {
    const face = (FACES[sign] ?? sign).replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    await page.locator(".keypad button", { hasText: new RegExp(`^\\s*${face}\\s*$`) }).first().click();
  }
}

/** Makes a tablet known to a desk, by the code the desk shows. */
export async function pair(page, desk, name, code = desk.code()) {
  await page.goto(`${desk.url}/pair`);
  await page.getByLabel("Code").fill(code);
  await page.getByLabel("Name of this device").fill(name);
  await page.getByRole("button", { name: "Pair" }).click();
  await page.waitForURL(`${desk.url}/`);
}

/** Says who writes, and looks whether it is still known after the page was loaded again. */
export async function author(page, desk, name) {
  const field = page.getByLabel(/your name/i).first();
  for (let tries = 0; tries < 5; tries++) {
    await page.goto(`${desk.url}/settings`);
    await field.fill(name);
    await field.blur();
    await page.waitForTimeout(400);
    await page.reload();
    await field.waitFor();
    await page.waitForTimeout(400);
    if ((await field.inputValue()) === name) return;
  }
  throw new Error(`the name ${name} is not kept`);
}

/** Waits until nothing waits to be sent. */
export async function allSent(page, seconds = 30) {
  await page.locator(".bar-outbox-count", { hasText: "All sent" }).waitFor({ timeout: seconds * 1000 });
}
