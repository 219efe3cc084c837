// Loads the app and says in words what stands in the way; hears of a new version of it.
//
// Between this file and the app, as events of the window:
//   shaftbook-version    a new version lies ready (also: data-version="waits" on the root element)
//   shaftbook-take-over  the person wants it, and nothing is half saved
//   shaftbook-stopped    the app stopped; nothing more can be entered on this page
"use strict";
(() => {
  const root = document.documentElement;
  let takingOver = false;

  function say(line, next, again) {
    const box = document.getElementById("boot");
    if (!box) return;
    box.setAttribute("role", "alert");
    document.getElementById("boot-line").textContent = line;
    document.getElementById("boot-next").textContent = next;
    if (again && !box.querySelector("button")) box.append(reloadKey());
  }

  function reloadKey() {
    const key = document.createElement("button");
    key.type = "button";
    key.textContent = "Load again";
    key.addEventListener("click", () => location.reload());
    return key;
  }

  function stopped() {
    if (document.getElementById("stopped") || document.getElementById("boot")) return;
    const box = document.createElement("div");
    box.id = "stopped";
    box.setAttribute("role", "alert");
    const line = document.createElement("p");
    line.textContent = "The app has stopped. Everything it called saved is kept, and what you were typing is " +
      "kept as far as you got. Load the page again; if it stops again at the same place, tell the office.";
    box.append(line, reloadKey());
    document.body.append(box);
    window.dispatchEvent(new Event("shaftbook-stopped"));
  }

  // A fault inside the wasm leaves a page that looks alive and is not.
  const isFault = (error) => typeof WebAssembly === "object" && error instanceof WebAssembly.RuntimeError;
  window.addEventListener("error", (event) => { if (isFault(event.error)) stopped(); });
  window.addEventListener("unhandledrejection", (event) => { if (isFault(event.reason)) stopped(); });

  async function load() {
    if (typeof WebAssembly !== "object") {
      say("This browser cannot run Shaftbook.",
        "It has no WebAssembly, or it is switched off. Open the page in a current browser. Nothing that was " +
        "saved is lost.", false);
      return;
    }
    try {
      const app = await import("/{{js}}");
      await app.default({ module_or_path: "/{{wasm}}" });
      document.getElementById("boot")?.remove();
    } catch (error) {
      console.error(error);
      const why = error instanceof WebAssembly.CompileError
        ? "This browser is too old for it, or the file was damaged on its way."
        : "A file of it could not be loaded.";
      say("Shaftbook could not be loaded.",
        `${why} Nothing that was saved is lost. Look at the connection, and load the page again.`, true);
    }
  }

  function waits() {
    root.dataset.version = "waits";
    window.dispatchEvent(new Event("shaftbook-version"));
  }

  function watch(registration) {
    const ready = () => { if (registration.waiting && navigator.serviceWorker.controller) waits(); };
    ready();
    registration.addEventListener("updatefound", () => {
      registration.installing?.addEventListener("statechange", ready);
    });
    const look = () => registration.update().catch(() => { /* Without a connection there is nothing new. */ });
    setInterval(look, 3600 * 1000);
    window.addEventListener("online", look);
    window.addEventListener("shaftbook-take-over", () => {
      takingOver = true;
      if (registration.waiting) registration.waiting.postMessage("take over");
      else location.reload();
    });
  }

  function offline() {
    if (!("serviceWorker" in navigator)) {
      // Over plain HTTP from another machine the browser has no worker: the app then needs the desk to open.
      root.dataset.offline = "no";
      window.addEventListener("shaftbook-take-over", () => location.reload());
      return;
    }
    const controlled = navigator.serviceWorker.controller !== null;
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (takingOver) location.reload();
      else if (controlled) waits();
    });
    navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" }).then(watch, (error) => {
      console.error(error);
      root.dataset.offline = "no";
    });
    navigator.serviceWorker.ready.then(() => { root.dataset.offline = "yes"; });
  }

  load();
  offline();
})();
