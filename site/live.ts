// Only in the author's preview: the page loads again when its content was rebuilt.

const root = document.documentElement;

// Saved copies would hide what the author just wrote, so none are made or kept here.
root.dataset.live = "";
void navigator.serviceWorker?.getRegistration(root.dataset.root).then((kept) => kept?.unregister());

const rebuilt = new EventSource((root.dataset.root ?? "") + "live");
rebuilt.onmessage = () => location.reload();
// A page that is left keeps no connection: a browser allows only six to one host.
addEventListener("pagehide", () => rebuilt.close());
