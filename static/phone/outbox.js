// What this phone has still to send. A row stands until the server has said that its entry is on disk.
import { range, read, write } from "./db.js";
import { bytesOf } from "./entry.js";

// Of an entry: where it is, and what makes it move. "sending" lives in memory only: after a kill it is on this phone.
//   on this phone --taken--> sending --kept, had_it--> sent (no row)
//   sending --no answer, sign in--> on this phone
//   sending --refused--> refused because --kept anew in its place--> put right
//   refused --its retry has come (later, after_sign_in, after_update)--> on this phone
export const NEXT = {
  kept: null, had_it: null,
  refused: { is: "refused" },
};

const MOST_ENTRIES = 500;
const MOST_BYTES = 900 * 1024;  // of the 1 MiB a call may have; the rest is for cursors
const LATER_MS = 10 * 60 * 1000;

/** Ids under way in this window. */
export const sendingNow = new Set();

/** The next entries of `person` to send, oldest count first, at most `most` and as many as a call may carry. */
export async function take(person, most = MOST_ENTRIES) {
  const rows = await read(["outbox", "entries"], async (store) => {
    const found = [];
    let cursor = await store("outbox").index("count").openCursor(range(person));
    for (; cursor && found.length < Math.min(most, MOST_ENTRIES); cursor = await cursor.continue()) {
      if (cursor.value.is === "waiting") found.push((await store("entries").get([person, cursor.value.id])).entry);
    }
    return found;
  });
  let bytes = 0;
  const fitting = rows.filter((entry, i) => (bytes += bytesOf(entry) + 1) <= MOST_BYTES || i === 0);
  return fitting;
}

/** What the server said of `sent`: rows of what is on its disk go, what it refused stays with its reason. */
export function settle(person, sent, results, shell) {
  return write(["outbox"], async (store) => {
    const box = store("outbox");
    for (const result of results) {
      const entry = sent[result.index];
      if (!entry || entry.id !== result.id || !(result.answer in NEXT)) continue;
      const next = NEXT[result.answer];
      const row = await box.get([person, entry.id]);
      if (!next) await box.delete([person, entry.id]);
      else if (row) await box.put({ ...row, ...next, why: result.why, since: Date.now(), shell });
    }
  });
}

const due = {
  later: (row) => Date.now() - row.since > LATER_MS,
  after_update: (row, shell) => row.shell !== shell,
  after_sign_in: (row, shell, signedIn) => signedIn,
};

/** Refused rows whose time to try again has come are on this phone again. */
export function wake(person, shell, signedIn = false) {
  return write(["outbox"], async (store) => {
    for (const row of await store("outbox").getAll(range(person))) {
      if (row.is === "refused" && due[row.why?.retry]?.(row, shell, signedIn)) {
        await store("outbox").put({ ...row, is: "waiting", why: null });
      }
    }
  });
}

/** Milliseconds to wait before try `n` (0, 1 …): full jitter under a doubling roof of at most five minutes. */
export function pause(n, random = Math.random()) {
  return random * Math.min(300000, 2000 * 2 ** n);
}
