// A tablet: Debian's Chromium with a profile of its own, driven by playwright-core.
//
// The profile outlives the browser, so that a test can restart it and look for what was kept.

import { chromium } from "playwright-core";
import { readFileSync, mkdirSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { folder } from "./desk.mjs";

const BROWSER = process.env.SHAFTBOOK_BROWSER ?? "chromium";
const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const SIZES = {
  phone: { width: 390, height: 844 },
  tablet: { width: 1024, height: 768 },
  desktop: { width: 1440, height: 900 },
};

/** Where pictures of screens go. */
export const PICTURES = new URL("../../out/browser/", import.meta.url).pathname;

function executable() {
  if (BROWSER.includes("/")) return BROWSER;
  for (const place of (process.env.PATH ?? "").split(":")) {
    try {
      readFileSync(join(place, BROWSER), { flag: "r" }).length;
      return join(place, BROWSER);
    } catch {
      /* not in this folder */
    }
  }
  return BROWSER;
}

export class Tablet {
  constructor(profile, size, options) {
    Object.assign(this, { profile, size, options, context: null, page: null, complaints: [] });
  }

  /** Switches a tablet on. `options` are further ones of playwright's browser contexts. */
  static async on({ profile = folder("tablet"), size = "tablet", ...options } = {}) {
    const tablet = new Tablet(profile, size, options);
    await tablet.start();
    return tablet;
  }

  async start() {
    this.context = await chromium.launchPersistentContext(this.profile, {
      executablePath: executable(),
      headless: true,
      args: FLAGS,
      viewport: SIZES[this.size],
      hasTouch: this.size !== "desktop",
      timezoneId: "America/Denver",
      acceptDownloads: true,
      ...this.options,
    });
    this.page = this.context.pages()[0] ?? (await this.context.newPage());
    this.listen(this.page);
  }

  /** Whatever the page complains of is kept; a test may ask for it at its end. */
  listen(page) {
    page.on("pageerror", (error) => this.complaints.push(`error: ${error.message}`));
    page.on("console", (message) => {
      if (message.type() === "error") this.complaints.push(`console: ${message.text()}`);
    });
  }

  async newTab() {
    const page = await this.context.newPage();
    this.listen(page);
    return page;
  }

  async off() {
    await this.context.close();
  }

  /** Off and on again, as after an empty battery. */
  async restart() {
    await this.off();
    await this.start();
  }

  /** A picture of the screen, for people to look at. */
  async picture(name, page = this.page) {
    const path = join(PICTURES, `${name}.png`);
    mkdirSync(dirname(path), { recursive: true });
    await page.screenshot({ path });
    return path;
  }

  /**
   * What axe finds at WCAG 2.2 AA, one line a finding; empty is good. A field that lies half under the key that saves
   * counts only if it is still too small with the page scrolled to it.
   */
  async axe(page = this.page) {
    await page.evaluate(AXE);
    const found = await page.evaluate(async () => {
      const { violations } = await globalThis.axe.run(document, {
        runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
      });
      const stays = async ({ id, node }) => {
        const shown = id === "target-size" && document.querySelector(node.target[0]);
        if (!shown) return true;
        const before = scrollY;
        shown.scrollIntoView({ block: "center", behavior: "instant" });
        const again = await globalThis.axe.run(shown, { runOnly: [id] });
        scrollTo({ top: before, behavior: "instant" });
        return again.violations.length > 0;
      };
      const kept = [];
      for (const one of violations.flatMap(({ id, nodes }) => nodes.map((node) => ({ id, node })))) {
        if (await stays(one)) kept.push(one);
      }
      return kept;
    });
    return found.map(({ id, node }) => `${id}: ${node.target.join(" ")}: ${node.failureSummary}`);
  }
}
