// How the sender is: what it is at, when it tries again, what it last heard.
import { tell } from "./events.js";
import { setValue } from "./facts.js";
import { pause } from "./outbox.js";

/** The version of the shell that this page runs, out of its own address. */
export const SHELL = /\/static\/([^/]+)\//.exec(import.meta.url)?.[1] ?? "";

// Of the sender: "starting", "idle", "sending", and why it stopped: "no signal", "not ours", "later", "sign in", "other person",
// "too old", "refused" (the call as a whole). All but the first three are left by the next try.
export const now = { is: "starting", tries: 0, until: 0, notBefore: 0, shell: SHELL, contact: null, named: "", most: 500 };

/** {is, contact: ms of the last answer or null, shell: the server's, until: ms of the next try}. */
export const state = () => ({ ...now });

/** Says what the sender is at. */
export function become(is) {
  now.is = is;
  tell({ kind: "signal", is });
}

/** Marks an answer of ours: the signal is there, and how far this phone's clock is off. */
export async function heard(answer) {
  now.contact = answer.came;
  now.shell = answer.shell ?? now.shell;
  await setValue("contact", answer.came);
  const time = Date.parse(answer.data?.time);
  if (time) await setValue("clock", { offset_ms: Math.round(time - (answer.sent + answer.came) / 2) });
}

/** Why a round stopped, and when the next may begin. */
export function stop(answer) {
  if (answer.kind === "no signal" && answer.late) now.most = Math.max(10, now.most >> 1);  // a slow line: smaller calls
  now.until = Date.now() + pause(now.tries);
  now.notBefore = Date.now() + (answer.after_ms || 0);
  now.tries += 1;
  become(answer.kind);
}

/** A round went through: the next waits for nothing. */
export function done() {
  Object.assign(now, { tries: 0, until: 0, notBefore: 0 });
  become("idle");
}
