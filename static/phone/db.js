// The phone's store: one IndexedDB. Inside a transaction nothing but IndexedDB is awaited: it commits when idle.
import { openDB } from "./vendor/idb.js";
import { tell } from "./events.js";

const NAME = "fieldapp";
export const VERSION = 1;
const SILENCE_MS = 3000;
// What a dead connection throws after a phone comes back from the background; a new connection is the only cure.
const LOST = new Set(["InvalidStateError", "UnknownError"]);

/** The store did not answer, or could not keep: `word` names the sentence for the person (words_phone.js). */
export class StoreFault extends Error {
  constructor(word, cause) {
    super(word, { cause });
    this.word = word;
  }
}

// Everything but packets and parts (named by their hash) stands under the person it belongs to.
function upgrade(db, from) {
  if (from < 1) {
    db.createObjectStore("settings");
    db.createObjectStore("sessions", { keyPath: "id" });
    db.createObjectStore("units", { keyPath: ["person", "id"] });
    db.createObjectStore("entries", { keyPath: ["person", "id"] }).createIndex("unit", ["person", "unit"]);
    db.createObjectStore("outbox", { keyPath: ["person", "id"] }).createIndex("count", ["person", "count"]);
    db.createObjectStore("packets");
    db.createObjectStore("parts");
    db.createObjectStore("drafts", { keyPath: ["person", "key"] });
  }
}

let opening = null;

function drop() {
  opening?.then((db) => db.close(), () => {});
  opening = null;
}

function openOnce() {
  const opened = openDB(NAME, VERSION, {
    upgrade,
    blocked: () => tell({ kind: "store", word: "store_held" }),
    blocking: () => { drop(); tell({ kind: "store", word: "store_updated" }); },
    terminated: drop,
  });
  let timer;
  const silent = new Promise((_, reject) => { timer = setTimeout(() => reject(new Error("silent")), SILENCE_MS); });
  return Promise.race([opened, silent]).finally(() => clearTimeout(timer));
}

/** The open database; tried once more when it stays silent. */
export function open() {
  opening ??= openOnce().catch(openOnce).catch((cause) => {
    opening = null;
    throw new StoreFault(cause?.name === "VersionError" ? "store_updated" : "store_silent", cause);
  });
  return opening;
}

async function once(stores, mode, work) {
  const t = (await open()).transaction(stores, mode, mode === "readwrite" ? { durability: "strict" } : {});
  const done = t.done;
  done.catch(() => {});  // awaited below; a failing `work` must not leave it unheard
  let result;
  try {
    result = await work((name) => t.objectStore(name));
  } catch (fault) {
    try { t.abort(); } catch { /* it has aborted by itself */ }
    throw t.error ?? fault;
  }
  await done;  // "saved" is the transaction's complete, never a request's success
  return result;
}

/** Runs `work(store)` in one transaction over `stores`; again on a new connection when this one was lost. */
async function transact(stores, mode, work) {
  try {
    return await once(stores, mode, work);
  } catch (fault) {
    if (!LOST.has(fault?.name)) throw fault;
    drop();
    return once(stores, mode, work);
  }
}

export const read = (stores, work) => transact(stores, "readonly", work);
export const write = (stores, work) => transact(stores, "readwrite", work);

/** Every row of `store` that belongs to `person`. */
export const range = (person) => IDBKeyRange.bound([person], [person, []]);
