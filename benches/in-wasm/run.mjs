// Runs a bench that was built for wasm32-wasip1 in Node, whose engine is that of Chromium.
//
//   rustup target add wasm32-wasip1
//   cargo build --release --target wasm32-wasip1 -p calc --example bench_profile --example bench_day
//   node --no-warnings benches/in-wasm/run.mjs target/wasm32-wasip1/release/examples/bench_profile.wasm
//
// It prints what the bench prints; nothing is asserted.
import { readFile } from "node:fs/promises";
import { WASI } from "node:wasi";

for (const path of process.argv.slice(2)) {
  const wasi = new WASI({ version: "preview1", args: [path], returnOnExit: true });
  const module = await WebAssembly.compile(await readFile(path));
  const instance = await WebAssembly.instantiate(module, wasi.getImportObject());
  console.log(`== ${path.split("/").pop()} in ${process.release.name} ${process.version}`);
  wasi.start(instance);
}
