// What the phone carries of the units its person sees: an answer of the server laid into the store.
import { range, write } from "./db.js";

const fresh = (person, id) => ({ person, id, number: "", code: "", short: "", job: null, crew: null, stage: null,
  waiting: [], packet: null, inUse: null, cursor: null, seen: false, opened: null, planSince: null, needs: [] });

const changed = (row, packet) => (packet && packet !== row.packet ? { packet, planSince: Date.now() } : {});

/**
 * Lays a sync's answer into the store, in one transaction: entries down, cursors, newly assigned units, and units gone
 * (their rows and entries, never what is unsent). Gives {more: ask again, arrived: entries, news: units
 * that came or went}.
 */
export function apply(person, answer) {
  return write(["units", "entries", "outbox"], async (store) => {
    let arrived = 0;
    let news = 0;
    let more = false;
    for (const { id, packet } of answer.assigned ?? []) {
      const row = await store("units").get([person, id]);
      if (!row) news += 1;
      await store("units").put({ ...(row ?? fresh(person, id)), ...changed(row ?? fresh(person, id), packet) });
    }
    for (const [id, down] of Object.entries(answer.units ?? {})) {
      const row = (await store("units").get([person, id])) ?? fresh(person, id);
      for (const entry of down.entries) await store("entries").put({ person, id: entry.id, unit: id, entry });
      const signed = down.entries.filter((e) => e.kind === "signoff" && e.packet).map((e) => e.packet);
      await store("units").put({ ...row, ...changed(row, down.packet), cursor: down.cursor,
        needs: [...new Set([...row.needs, ...signed])] });
      arrived += down.entries.length;
      more ||= down.more;
    }
    for (const id of Object.keys(answer.gone ?? {})) {
      await leave(store, person, id);
      news += 1;
    }
    return { more: more || news > 0, arrived, news };
  });
}

async function leave(store, person, unit) {
  const out = new Set((await store("outbox").getAll(range(person))).map((row) => row.id));
  for (const [, id] of await store("entries").index("unit").getAllKeys([person, unit])) {
    if (!out.has(id)) await store("entries").delete([person, id]);
  }
  await store("units").delete([person, unit]);
}

/** What `GET /api/units` says of the units: number, codes, job, crew, stage. */
export function name(person, listed) {
  return write(["units"], async (store) => {
    for (const { packet, state, ...facts } of listed) {
      const row = (await store("units").get([person, facts.id])) ?? fresh(person, facts.id);
      await store("units").put({ ...row, ...facts, ...changed(row, packet) });
    }
  });
}

/** Everything of a person who has nothing unsent goes from this phone; false when something is unsent. */
export function forget(person) {
  return write(["units", "entries", "outbox", "drafts", "sessions", "settings", "packets", "parts"], async (store) => {
    const out = (await store("outbox").getAll(range(person))).filter((row) => row.is !== "put right");
    if (out.length) return false;
    for (const place of ["units", "entries", "outbox", "drafts"]) await store(place).delete(range(person));
    await store("sessions").delete(person);
    await store("settings").delete(IDBKeyRange.bound(`own/${person}/`, `own/${person}/\uffff`));
    if ((await store("units").count()) === 0) for (const place of ["packets", "parts"]) await store(place).clear();
    return true;
  });
}
