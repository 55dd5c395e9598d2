// What a screen is given (app.js says what each part is).
import { make } from "./entry.js";
import * as frame from "./frame.js";
import { whatChanged, whole, placed } from "./packet.js";
import * as store from "./store.js";

const OPENED_MS = 60000;  // how exactly "opened last" is known

export async function context(at, { go, instead, again, say }) {
  const [person, settings, device, clock, carried] = await Promise.all([
    store.session(), store.settings(), store.value("device"), store.value("clock"), at.unit && carriedUnit(at.unit)]);
  if (settings.lang) document.documentElement.lang = settings.lang;  // what words.js speaks
  const ctx = {
    at, person, settings, store, go, instead, again, say, unit: null, packet: null, parts: {}, entries: [], refused: [], state: null,
    fresh: null, status: store.status, draft: store.draft, setting: store.setting, keys: frame.rekey,
    async keep(entries) {
      try {
        const kept = await store.keep(entries);
        for (const [i, entry] of kept.entries()) Object.assign(entries[i], entry);
        await frame.kept(new Date());
        return true;
      } catch (fault) {
        console.error(fault);
        await frame.kept(fault);
        return false;
      }
    },
  };
  if (person && carried?.unit) await addUnit(ctx, carried);
  ctx.make = (kind, value, where = {}) => make(kind, value,
    { unit: at.unit, packet: ctx.hash, ...where, sheet: where.sheet ? ctx.sheetHash(where.sheet) : null },
    { person: person.id, device: device.id, offset_ms: clock?.offset_ms ?? null });
  return ctx;
}

// The plan in use: the one this phone works by until its person takes the newer one. Untouched units just take it.
async function planOf(unit, entries, person) {
  const next = await whole(unit.packet);
  const old = unit.inUse && unit.inUse !== unit.packet ? await whole(unit.inUse) : null;
  const begun = entries.some((entry) => entry.person === person.id && entry.packet === unit.inUse);
  if (old && (begun || !next)) return { hash: unit.inUse, plan: old, next };
  if (next && unit.inUse !== unit.packet) await store.noteUnit(unit.id, { inUse: unit.packet });
  return { hash: next ? unit.packet : null, plan: next, next: null };
}

// While a newer plan waits, the entry that issued it waits too: the state shown is that of the plan in use.
function until(entries, hash) {
  const issues = new Map(entries.filter((e) => e.kind === "issue").map((e) => [e.id, e]));
  const named = (e) => e.value.packet === hash || Object.values(e.value.others ?? {}).includes(hash);
  const older = new Set([...issues.values()].filter(named).map((e) => e.id));
  for (const id of older) for (const before of issues.get(id)?.replaces ?? []) older.add(before);
  return older.size ? entries.filter((e) => e.kind !== "issue" || older.has(e.id)) : entries;
}

// A unit as the store has it: its row, its entries and, in this window from now on, its plan.
async function carriedUnit(id) {
  const [unit, held] = await Promise.all([store.unit(id).then(async (row) => { await whole(row?.packet); return row; }), store.held(id)]);
  return { unit, held };
}

// When it was opened, and what stage it is at by this phone, as long as the office says of it what it says now.
function note(unit, stage) {
  const news = { ...(Date.now() - (unit.opened ?? 0) > OPENED_MS && { opened: Date.now() }),
    ...((unit.here?.of !== unit.stage || unit.here.stage !== stage) && { here: { stage, of: unit.stage } }) };
  if (Object.keys(news).length) store.noteUnit(unit.id, news).catch(() => {});
}

async function addUnit(ctx, { unit, held: { entries, refused } }) {
  const folding = import("./fold.js");  // the largest part, which only a unit needs
  folding.catch(() => {});
  const { hash, plan, next } = await planOf(unit, entries, ctx.person);
  Object.assign(ctx, { unit, refused, hash, entries });
  ctx.sheetHash = (name) => ctx.packet?.sheets.find((sheet) => sheet.name === name)?.part ?? null;
  ctx.sheet = (name) => ctx.parts[ctx.sheetHash(name)] ?? null;
  if (!plan) return;
  const packets = { [hash]: plan.packet };
  const parts = { ...plan.parts };
  for (const needed of unit.needs) {
    const other = packets[needed] ? null : await whole(needed);
    if (other) { packets[needed] = other.packet; Object.assign(parts, other.parts); }
  }
  ctx.entries = next ? until(entries, hash) : entries;
  ctx.packet = shown(hash, plan);
  ctx.drawings = ctx.packet.drawings ?? [];
  ctx.parts = plan.parts;
  const { fold } = await folding;
  ctx.state = fold(ctx.entries, packets, parts);
  note(unit, ctx.state.stage);  // last: a write keeps readers waiting
  if (next) {
    const { lengthText } = await import("./dim.js");  // figures are only said here
    ctx.fresh = { since: new Date(unit.planSince), changed: whatChanged(plan.packet, next.packet, (nm) => lengthText(nm, ctx.settings.show)) };
    ctx.takePlan = () => store.noteUnit(unit.id, { inUse: unit.packet, needs: [...new Set([...unit.needs, hash])] });
  }
}

// Shared texts and drawings put in their places, once a packet; the sheets keep naming their parts.
const put = new Map();
function shown(hash, { packet, parts }) {
  if (!put.has(hash)) put.set(hash, { ...placed({ ...packet, sheets: [] }, parts), sheets: packet.sheets });
  return put.get(hash);
}
