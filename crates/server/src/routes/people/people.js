// The little these pages need a script for. Without it everything works but passkeys.

const field = document.getElementById("invitation");
if (field && location.hash.length > 1) {
  field.value = location.hash.slice(1);
  // Not in the history of the browser, nor in a picture of the window.
  history.replaceState(null, "", location.pathname);
}

// Passkeys: a question comes from the office, the browser answers it, the answer goes back.

const said = document.getElementById("passkey-said");

const bytes = (text) => Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (one) => one.charCodeAt(0));

const text = (buffer) => {
  const all = Array.from(new Uint8Array(buffer), (byte) => String.fromCharCode(byte)).join("");
  return btoa(all).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
};

/** Sends something to the office, and gives its answer; what it refuses is thrown in its own words. */
async function told(address, body) {
  const answer = await fetch(address, { method: "POST", body: body && JSON.stringify(body) });
  const content = await answer.json();
  if (!answer.ok) throw new Error([content.what, content.meaning, content.next].join(" "));
  return content;
}

const named = (list) => list?.map((one) => ({ ...one, id: bytes(one.id) }));

/** A question as the browser takes it. */
function read(question) {
  const read = { ...question, challenge: bytes(question.challenge) };
  if (question.user) read.user = { ...question.user, id: bytes(question.user.id) };
  if (question.excludeCredentials) read.excludeCredentials = named(question.excludeCredentials);
  if (question.allowCredentials) read.allowCredentials = named(question.allowCredentials);
  return read;
}

/** An answer as the office reads it. */
function written(credential) {
  const response = {};
  for (const name of ["clientDataJSON", "attestationObject", "authenticatorData", "signature", "userHandle"]) {
    if (credential.response[name]) response[name] = text(credential.response[name]);
  }
  return { id: credential.id, rawId: text(credential.rawId), type: credential.type, response };
}

/** One way with a passkey, from the key that was pressed to the page after it. */
async function way(work) {
  said.textContent = "";
  try {
    location.assign((await work()).to);
  } catch (error) {
    // What the browser says of one who changed their mind is long and about something else.
    const stopped = error.name === "NotAllowedError" || error.name === "AbortError";
    said.textContent = stopped ? "Nothing was done: no passkey was chosen in time, or this device may give none." : error.message;
  }
}

const signIn = () =>
  way(async () => {
    const { ceremony, question } = await told("/people/sign-in/passkey/begin");
    const credential = await navigator.credentials.get({ publicKey: read(question) });
    return told("/people/sign-in/passkey", { ceremony, answer: written(credential) });
  });

const add = (event) => {
  event.preventDefault();
  const name = document.getElementById("passkey-name").value;
  way(async () => {
    const { ceremony, question } = await told("/people/passkeys/new");
    const credential = await navigator.credentials.create({ publicKey: read(question) });
    return told("/people/passkeys", { ceremony, name, answer: written(credential) });
  });
};

const place = document.querySelector("[data-passkeys]");
if (place && globalThis.PublicKeyCredential) {
  place.hidden = false;
  const key = place.querySelector("button");
  if (location.origin !== place.dataset.passkeys) {
    key.hidden = true;
    said.textContent = `Passkeys of this office are used at ${place.dataset.passkeys}`;
  }
  document.getElementById("use-passkey")?.addEventListener("click", signIn);
  document.getElementById("new-passkey")?.addEventListener("submit", add);
}
