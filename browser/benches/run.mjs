// Runs benches that were built for wasm32-wasip1 in Debian's Chromium: as fast as this machine is, and with the processor
// slowed four times, as a tablet's. `cargo xtask prove speed` builds them and calls this:
//
//   node browser/benches/run.mjs MODULE.wasm ...
//
// It prints what each bench prints; nothing is asserted against a time. The page is served to the browser out of this
// process; nothing listens on a port.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename, dirname, join } from "node:path";
import { Tablet } from "../lib/tablet.mjs";

const HOME = "https://bench.test/";
const SHIM = dirname(createRequire(import.meta.url).resolve("@bjorn3/browser_wasi_shim"));
const SLOWED = [1, 4];

/** What a bench printed, line by line. It runs in the page. */
async function bench() {
  const { WASI, File, OpenFile, ConsoleStdout } = await import("/shim/index.js");
  const lines = [];
  const out = () => ConsoleStdout.lineBuffered((line) => lines.push(line));
  const wasi = new WASI(["bench"], [], [new OpenFile(new File([])), out(), out()], { debug: false });
  const module = await WebAssembly.compileStreaming(fetch("/module.wasm"));
  const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi.wasiImport });
  const ended = wasi.start(instance);
  if (ended !== 0) throw new Error(`it ended with ${ended}:\n${lines.join("\n")}`);
  return lines;
}

async function serve(page, module) {
  await page.unrouteAll();
  await page.route(`${HOME}**`, async (route) => {
    const { pathname } = new URL(route.request().url());
    const answers = {
      "/": { contentType: "text/html", body: "<!doctype html><title>bench</title>" },
      "/module.wasm": { contentType: "application/wasm", body: module },
    };
    const shim = pathname.startsWith("/shim/") && join(SHIM, basename(pathname));
    await route.fulfill(shim ? { contentType: "text/javascript", body: await readFile(shim) } : (answers[pathname] ?? { status: 404 }));
  });
  await page.goto(HOME);
}

const tablet = await Tablet.on();
const { page, context } = tablet;
try {
  const control = await context.newCDPSession(page);
  for (const path of process.argv.slice(2)) {
    await serve(page, await readFile(path));
    for (const rate of SLOWED) {
      await control.send("Emulation.setCPUThrottlingRate", { rate });
      const version = context.browser()?.version() ?? (await control.send("Browser.getVersion")).product;
      console.log(`== ${basename(path, ".wasm")} in Chromium (${version})${rate > 1 ? `, processor slowed ${rate} times` : ""}`);
      for (const line of await page.evaluate(bench)) console.log(line);
    }
  }
} finally {
  await tablet.off();
}
