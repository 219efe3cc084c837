// The app out of a folder, the rest from the desk: for people who work on the app and do not want to build the
// program each time (`SHAFTBOOK_APP_FROM=out/app node --test browser/tests/…` after `cargo xtask app --quick`).

import { existsSync, readFileSync } from "node:fs";
import { createServer, request } from "node:http";
import { extname, join } from "node:path";

const MEDIA = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".wasm": "application/wasm",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".webmanifest": "application/manifest+json",
};
const POLICY =
  "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; " +
  "connect-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'";

/** Serves `folder` on `port` and hands everything of the desk on to `behind`. */
export function beside(folder, port, behind) {
  const server = createServer((asked, answer) => {
    const path = new URL(asked.url, "http://desk").pathname;
    if (path.startsWith("/api/") || /^\/(desk|people)(\/|$)/.test(path)) return handOn(asked, answer, behind);
    const exact = join(folder, path);
    const file = path !== "/" && extname(path) && existsSync(exact) ? exact : join(folder, "index.html");
    answer.writeHead(200, {
      "content-type": MEDIA[extname(file)] ?? "application/octet-stream",
      "cache-control": "no-cache",
      "content-security-policy": POLICY,
    });
    answer.end(readFileSync(file));
  });
  return new Promise((resolve) => server.listen(port, "127.0.0.1", () => resolve(server)));
}

function handOn(asked, answer, port) {
  const on = request({ port, host: "127.0.0.1", path: asked.url, method: asked.method, headers: asked.headers }, (got) => {
    answer.writeHead(got.statusCode, got.headers);
    got.pipe(answer);
  });
  on.on("error", () => answer.destroy());
  asked.pipe(on);
}
