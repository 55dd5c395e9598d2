// What changed, told to this window and to the phone's other windows.

const listeners = new Set();
const others = "BroadcastChannel" in self ? new BroadcastChannel("fieldapp-changes") : null;

function hear(what) {
  for (const listener of listeners) listener(what);
}

if (others) others.onmessage = (message) => hear({ ...message.data, elsewhere: true });

/** Calls `fn({kind: "entries"|"outbox"|"units"|"session"|"settings"|"signal"|"version"|"store", …})`; returns how to stop. */
export function onChange(fn) {
  listeners.add(fn);
  return () => listeners.delete(fn);
}

export function tell(what) {
  hear(what);
  others?.postMessage(what);
}
