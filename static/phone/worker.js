// The page's side of the service worker: registered, asked for news, changed over only when the person says so.
import { tell } from "./events.js";

const EVERY_MS = 30000;
let registration = null;
let asked = 0;

/** Whether a newer version is here and waits. */
export const newer = () => Boolean(registration?.waiting && navigator.serviceWorker.controller);

/** Whether the pages are kept for opening without signal. */
export const kept = () => Boolean(registration?.active);

/** Goes over to the newer version; every window of this phone loads again, once. */
export function changeOver() {
  registration?.waiting?.postMessage({ do: "change over" });
}

function ask() {
  if (!registration || document.visibilityState !== "visible" || Date.now() - asked < EVERY_MS) return;
  asked = Date.now();
  registration.update().catch(() => {});  // no signal: the next time the page is seen
}

function watch(worker) {
  worker?.addEventListener("statechange", () => tell({ kind: "version" }));
}

function loadOnceWhenChanged() {
  let controlled = Boolean(navigator.serviceWorker.controller);
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (controlled) location.reload();
    controlled = true;
  }, { once: controlled });
}

export async function start() {
  if (!("serviceWorker" in navigator)) return;
  loadOnceWhenChanged();
  try {
    registration = await navigator.serviceWorker.register("/service-worker.js", { scope: "/", updateViaCache: "none" });
  } catch (fault) {
    registration = await navigator.serviceWorker.getRegistration();  // no signal: the one that is here
    if (!registration) console.warn(`no worker: ${fault.message}`);
  }
  asked = Date.now();
  watch(registration?.waiting ?? registration?.installing);
  registration?.addEventListener("updatefound", () => watch(registration.installing));
  document.addEventListener("visibilitychange", ask);
  for (const event of ["pageshow", "focus"]) addEventListener(event, ask);
  tell({ kind: "version" });
}
