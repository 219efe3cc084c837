import { test } from "node:test";
import { Desk, folder } from "../lib/desk.mjs";
import { Tablet } from "../lib/tablet.mjs";
import { author } from "../lib/rig.mjs";
test("try", async () => {
  const desk = await Desk.open({ place: folder("try") });
  const tablet = await Tablet.on();
  const { page } = tablet;
  const shot = (n) => page.screenshot({ path: `/tmp/pp/${n}.png`, fullPage: true });
  try {
    await page.goto(desk.url); await page.waitForTimeout(3000); console.log(tablet.complaints, await page.locator("body").innerText()); await author(page, desk, "R. Quill");
    await page.goto(desk.url);
    await page.getByText("Practise").first().click();
    await page.getByRole("heading", { level: 1 }).filter({ hasText: "Practise" }).waitFor();
    await shot("1-begin");
    await page.getByText("A load of another mix").click();
    await page.getByLabel("Number of the day").fill("3");
    await page.getByRole("button", { name: "Begin" }).click();
    await page.waitForURL(/hole$/);
    await page.getByRole("button", { name: /what comes next/ }).click();
    await page.waitForTimeout(700);
    await page.getByRole("button", { name: /what comes next/ }).click();
    await page.waitForTimeout(1500);
    await shot("2-hole");
    await page.screenshot({ path: `/tmp/pp/2-hole-view.png` });
    await page.getByRole("button", { name: "Let the concrete come" }).click();
    for (let i = 0; i < 6; i++) { await page.getByRole("button", { name: /what comes next/ }).click(); await page.waitForTimeout(600); }
    await shot("3-load");
    await page.goto(page.url().replace("hole", "shaft/R-1"));
    await page.waitForTimeout(1500);
    await page.screenshot({ path: `/tmp/pp/4-shaft.png` });
    console.log(tablet.complaints);
  } finally { await tablet.off(); await desk.stop(); }
});
