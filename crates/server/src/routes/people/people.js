// The little these pages need a script for. Without it everything works but passkeys.

const field = document.getElementById("invitation");
if (field && location.hash.length > 1) {
  field.value = location.hash.slice(1);
  // Not in the history of the browser, nor in a picture of the window.
  history.replaceState(null, "", location.pathname);
}
