// A page at every size and in both themes, as somebody looks at it.

import assert from "node:assert/strict";
import { SIZES } from "./tablet.mjs";

/** Nothing axe complains of, nothing wider than the screen, and what else has to hold: `also(size)`. A picture of each is kept. */
export async function looked(tablet, name, also = async () => {}) {
  const page = tablet.page;
  for (const [size, view] of Object.entries(SIZES)) {
    for (const [theme, colorScheme] of [["sun", "light"], ["night", "dark"]]) {
      await page.setViewportSize(view);
      await page.emulateMedia({ colorScheme });
      await tablet.picture(`${name}-${size}-${theme}`);
      assert.deepEqual(await tablet.axe(), [], `${name} on a ${size}, ${theme}`);
      const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wider <= 0, `${name} is ${wider} px wider than a ${size}`);
      await also(size);
    }
  }
  await page.setViewportSize(SIZES[tablet.size]);
}
