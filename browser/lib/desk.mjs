// The desk: `shaftbook serve` on a port of its own, in a folder of its own.
//
// A test stops it, kills it and starts it again on the same port, as an office does with its machine.

import { spawn, execFileSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beside } from "./beside.mjs";

const PROGRAM = process.env.SHAFTBOOK ?? "target/debug/shaftbook";

/** A folder nobody else uses. */
export function folder(name) {
  return mkdtempSync(join(tmpdir(), `shaftbook-${name}-`));
}

/** Runs `shaftbook` with these words and gives what it printed; throws what it said when it fails. */
export function shaftbook(...words) {
  return execFileSync(PROGRAM, words, { encoding: "utf8" });
}

/** A port that is free at this moment. */
export function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

export class Desk {
  constructor(place, port, words) {
    Object.assign(this, { place, port, words, child: null, said: "" });
    this.url = `http://127.0.0.1:${port}`;
  }

  /** A desk in a new folder, or in `place`, with further words for `serve`. */
  static async open({ place = folder("desk"), words = [] } = {}) {
    const desk = new Desk(place, await freePort(), words);
    await desk.start();
    return desk;
  }

  /** Starts the program and waits until it answers. */
  async start() {
    const from = process.env.SHAFTBOOK_APP_FROM;
    if (from) this.behind ??= await freePort();
    const at = this.reachedAt ?? (from && this.url);
    const reached = at ? ["--reached-at", at] : [];
    const words = ["serve", this.place, "--address", `127.0.0.1:${this.behind ?? this.port}`, ...reached, ...this.words];
    this.said = "";
    this.child = spawn(PROGRAM, words, { stdio: ["ignore", "pipe", "pipe"] });
    const hear = (bytes) => (this.said += bytes);
    this.child.stdout.on("data", hear);
    this.child.stderr.on("data", hear);
    const ended = new Promise((resolve) => this.child.once("exit", resolve));
    this.ended = ended;
    if (from) this.front = await beside(from, this.port, this.behind);
    for (let tries = 0; tries < 300; tries++) {
      if (this.child.exitCode !== null) throw new Error(`the desk ended at once:\n${this.said}`);
      if (await this.answers()) return;
      await new Promise((later) => setTimeout(later, 50));
    }
    throw new Error(`the desk did not answer:\n${this.said}`);
  }

  async answers() {
    return fetch(`${this.url}/api/v1/hello`).then((answer) => answer.ok, () => false);
  }

  /** Stops it as a person does; `SIGKILL` as a power cut does. */
  async stop(signal = "SIGTERM") {
    this.front?.closeAllConnections();
    this.front?.close();
    if (this.child && this.child.exitCode === null && this.child.signalCode === null) {
      this.child.kill(signal);
      await this.ended;
    }
  }

  /** A code to pair one device with, as the desk shows it. */
  code() {
    const said = shaftbook("pair", this.place, "--json");
    return JSON.parse(said).code;
  }

}
