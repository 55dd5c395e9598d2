// What the phone keeps, as the screens see it. Who is signed in decides whose rows are read.
import { range, read, StoreFault, write } from "./db.js";
import { tell } from "./events.js";
import { me } from "./facts.js";
import { sendingNow } from "./outbox.js";

export { onChange } from "./events.js";
export { draft, open, probe, session, setting, settings, setValue, value } from "./facts.js";

const mine = (name) => read(["settings", name], async (store) => store(name).getAll(range(await me(store))));
const one = (name, id) => read(["settings", name], async (store) => store(name).get([await me(store), id]));

/** Units this person carries; one of them, or undefined. */
export const units = () => mine("units");
export const unit = (id) => one("units", id);

/** Puts `facts` into a carried unit's row. */
export const noteUnit = (id, facts) => write(["settings", "units"], async (store) => {
  const row = await store("units").get([await me(store), id]);
  if (row) await store("units").put({ ...row, ...facts });
});

/** A unit's entries here: {entries: those that count, sent, then unsent by count; refused: [{entry, why}] still open}. */
export async function held(unitId) {
  const [rows, out] = await read(["settings", "entries", "outbox"], async (store) => {
    const person = await me(store);
    return Promise.all([store("entries").index("unit").getAll([person, unitId]), store("outbox").getAll(range(person))]);
  });
  const by = new Map(out.map((row) => [row.id, row]));
  const at = (row) => by.get(row.id);
  const unsent = rows.filter((row) => at(row)?.is === "waiting").sort((a, b) => a.entry.count - b.entry.count);
  return {
    entries: [...rows.filter((row) => !at(row)), ...unsent].map((row) => row.entry),
    refused: rows.filter((row) => at(row)?.is === "refused").map((row) => ({ entry: row.entry, why: at(row).why })),
  };
}
export const entries = async (unitId) => (await held(unitId)).entries;


/** Every entry of this person that the server refused and nothing has put right: [{entry, why}]. */
export const allRefused = () => read(["settings", "entries", "outbox"], async (store) => {
  const person = await me(store);
  const rows = (await store("outbox").getAll(range(person))).filter((row) => row.is === "refused");
  return Promise.all(rows.map(async (row) => ({ entry: (await store("entries").get([person, row.id])).entry, why: row.why })));
});

export const packet = (hash) => read(["packets"], (store) => store("packets").get(hash));
export const part = (hash) => read(["parts"], (store) => store("parts").get(hash));

const KEPT_IN = ["settings", "entries", "outbox"];

/**
 * Keeps entries and their outbox rows in one strict transaction; resolves when that is on disk, with the entries as
 * kept (their counts given). A refused one is put right by what is kept in its place. Throws StoreFault.
 */
export async function keep(made) {
  try {
    const kept = await write(KEPT_IN, (store) => keepIn(store, made)).catch(async (fault) => {
      if (fault?.name !== "QuotaExceededError") throw fault;
      await makeRoom();
      return write(KEPT_IN, (store) => keepIn(store, made));
    });
    tell({ kind: "entries", from: "here", units: [...new Set(kept.map((e) => e.unit))] });
    return kept;
  } catch (fault) {
    if (fault instanceof StoreFault) throw fault;
    throw new StoreFault(fault?.name === "QuotaExceededError" ? "full" : "store_failed", fault);
  }
}

async function keepIn(store, made) {
  const person = await me(store);
  const device = await store("settings").get("device");
  const kept = [];
  for (const entry of made) {
    if (entry.person !== person) throw new StoreFault("other_now");
    const had = await store("entries").get([person, entry.id]);  // kept before its connection was lost
    kept.push(had?.entry ?? { ...entry, device: device.id, count: device.count += 1 });
  }
  const places = new Set(kept.map(place));
  const refused = (await store("outbox").getAll(range(person))).filter((row) => row.is === "refused" && places.has(row.place));
  await Promise.all([
    ...kept.flatMap((entry) => [store("entries").put({ person, id: entry.id, unit: entry.unit, entry }),
      store("outbox").put({ person, id: entry.id, count: entry.count, place: place(entry), is: "waiting", why: null })]),
    ...refused.map((row) => store("outbox").put({ ...row, is: "put right" })),
    store("settings").put(device, "device"),
  ]);
  return kept;
}

// Where an entry belongs: what is kept there after a refusal puts it right.
const place = (entry) => [entry.unit, entry.step, entry.field ?? entry.kind].join(" ");

// Packets that no carried unit names come again with the next signal. The outbox is never touched.
const makeRoom = () => write(["units", "packets"], async (store) => {
  const named = new Set((await store("units").getAll()).flatMap((unit) => [unit.packet, unit.inUse]));
  for (const hash of await store("packets").getAllKeys()) if (!named.has(hash)) await store("packets").delete(hash);
});

/** {is: "on this phone"|"sending"|"sent"|"refused", why} of an entry. */
export async function status(entryId) {
  const row = await one("outbox", entryId);
  if (!row) return { is: "sent", why: null };
  if (row.is !== "waiting") return { is: "refused", why: row.why };
  return { is: sendingNow.has(entryId) ? "sending" : "on this phone", why: null };
}

/** Per person on this phone, whoever is signed in: [{id, name, waiting, sending, refused: n}]. */
export const counts = () => read(["sessions", "outbox"], async (store) => {
  const rows = await store("outbox").getAll();
  return (await store("sessions").getAll()).map(({ id, name }) => {
    const own = (is) => rows.filter((row) => row.person === id && row.is === is);
    const waiting = own("waiting");
    return { id, name, waiting: waiting.length, refused: own("refused").length,
      sending: waiting.filter((row) => sendingNow.has(row.id)).length };
  });
});
