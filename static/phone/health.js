// How this phone is: what it can keep, for how long, and what its person should know before relying on it.
import { value } from "./facts.js";
import { whole } from "./packet.js";
import { units } from "./store.js";
import { SHELL } from "./sync.js";
import { say } from "./words_phone.js";

const MB = 1e6;
const LOW_FREE = 200 * MB;
const HIGH_USE = 0.8;
const CLOCK_MS = 5 * 60 * 1000;

// Safari on a phone says whether it runs from the home screen; no other browser has the word.
const inTab = () => "standalone" in navigator && !navigator.standalone;

async function room() {
  const { usage = 0, quota = 0 } = (await navigator.storage?.estimate?.()) ?? {};
  if (!quota || (quota - usage >= LOW_FREE && usage / quota <= HIGH_USE)) return null;
  return say("nearly_full", { free: Math.round((quota - usage) / MB) });
}

async function clockOff() {
  const off = Math.abs((await value("clock"))?.offset_ms ?? 0);
  if (off < CLOCK_MS) return null;
  const minutes = Math.round(off / 60000);
  return say("clock_off", { off: minutes < 120 ? say("minutes", { n: minutes }) : say("hours", { n: Math.round(minutes / 60) }) });
}

/** Sentences of warning, the gravest first. */
export async function warnings() {
  return [isSecureContext ? null : say("insecure"), inTab() ? say("not_installed") : null, await room(), await clockOff()].filter(Boolean);
}

/** {units: n, whole: n with plan and drawings, pages: whether the shell is kept, persisted: true, false or undefined}. */
export async function ready() {
  const carried = await units();
  const plans = await Promise.all(carried.map((unit) => whole(unit.inUse ?? unit.packet)));
  const pages = "caches" in self && await caches.has(`fieldapp-shell-${SHELL}`);
  return { units: carried.length, whole: plans.filter(Boolean).length, pages, persisted: await value("persisted") };
}
