// Keeps the shell, so that the phone opens without signal. A classic script that imports nothing. The server writes
// the shell's version into it, so that a new version is a new worker; the worker's own file is never kept.
"use strict";

const VERSION = "__SHELL_VERSION__";
const PREFIX = "fieldapp-shell-";
const NAME = PREFIX + VERSION;

// Only what our server gave, whole and at its own address, may be kept: a redirected shell opens on no phone.
async function fetched(path) {
  const cache = path.startsWith("/static/") ? "default" : "no-cache";  // under a version a file never changes
  const answer = await fetch(path, { cache, credentials: "omit" });
  if (answer.redirected || answer.status !== 200 || answer.type !== "basic") {
    throw new Error(`${path}: ${answer.status} ${answer.type}${answer.redirected ? ", redirected" : ""}`);
  }
  return answer;
}

// All files or none: a shell of two versions would be no shell.
async function keepShell() {
  const list = await (await fetched("/shell.json")).json();
  if (list.version !== VERSION) throw new Error(`the server has gone on to ${list.version}; this is ${VERSION}`);
  const answers = await Promise.all(list.files.map(async (path) => [path, await fetched(path)]));
  const cache = await caches.open(NAME);
  await Promise.all(answers.map(([path, answer]) => cache.put(path, answer)));
  return list.later ?? [];
}

// The work screens come after the shell. The worker takes over only when all is here: no screen is missing in a box.
async function keepLater(paths) {
  const cache = await caches.open(NAME);
  await Promise.all(paths.map(async (path) => cache.put(path, await fetched(path))));
}

self.addEventListener("install", (event) => {
  event.waitUntil(keepShell().then(keepLater));
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== NAME);
    await Promise.all(old.map((name) => caches.delete(name)));
    await self.clients.claim();  // the very first page is of this version too
  })());
});

self.addEventListener("message", (event) => {
  if (event.data?.do === "change over") self.skipWaiting();
});

const isShell = (path) => path === "/" || /^\/u\/[^/]+\/?$/i.test(path);

let opened = null;

async function fromShell(path, request) {
  opened ??= caches.open(NAME);
  const cache = await opened;
  return (await cache.match(path, { ignoreVary: true, ignoreSearch: true })) ?? fetch(request);
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin || url.pathname.startsWith("/api/")) return;
  if (request.mode === "navigate") {
    if (isShell(url.pathname)) event.respondWith(fromShell("/", request));
  } else if (url.pathname !== "/service-worker.js" && url.pathname !== "/shell.json") {
    event.respondWith(fromShell(url.pathname, request));
  }
});
