// What counts, what stands, and where; the plan in force. Twin of fieldapp/record/standing.py and plans.py.
import { canonical, isCovered } from "./fold_entries.js";

const NONE = Object.freeze([]);
/** Adds to the list under a key. */
export const push = (map, key, what) => (map.get(key) ?? map.set(key, []).get(key)).push(what);

// Kept entries, and quarantined ones admitted by an entry that counts; nobody admits her own.
function counted(entries) {
  const found = new Map([...entries].filter(([, entry]) => entry.server !== "quarantined"));
  const fresh = [...found.values()];
  while (fresh.length) {
    const review = fresh.pop();
    if (review.kind !== "review" || review.value?.is !== "admitted") continue;
    const of = review.value.of;
    if (!entries.has(of) || found.has(of) || entries.get(of).person === review.person) continue;
    found.set(of, entries.get(of));
    fresh.push(entries.get(of));
  }
  return [...found.keys()].sort();
}

/** The index of what is held; every list in order of id. A ring of replacements leaves none of its members standing. */
export function index(held) {
  const entries = new Map(Object.entries(held.entries));
  const all = new Map(counted(entries).map((id) => [id, { id, ...entries.get(id) }]));
  const replaced = new Set([...all.values()].flatMap((entry) => entry.replaces ?? NONE));
  const [kinds, places, steps, rounds] = [new Map(), new Map(), new Map(), new Map()];
  const standing = [...all.values()].filter((entry) => !replaced.has(entry.id));
  for (const entry of standing) {
    push(kinds, entry.kind, entry);
    if (entry.field !== undefined) push(places, place(entry.step, entry.field), entry);
    if (isCovered(entry) && entry.kind !== "release") push(steps, entry.step, entry);
  }
  for (const entry of all.values()) {
    if (entry.kind !== "round") continue;
    const sheet = entry.value?.sheet ?? "";
    (rounds.get(sheet) ?? rounds.set(sheet, new Map()).get(sheet)).set(entry.id, entry);
  }
  return {
    counted: all, standing, quarantined: all.size < entries.size, rounds,
    stands: new Set(standing.map((entry) => entry.id)),
    ofKind: (kind) => kinds.get(kind) ?? NONE,
    at: (step, field) => places.get(place(step, field)) ?? NONE,
    onStep: (step) => steps.get(step) ?? NONE,
  };
}

/** The key of a field's place; a step may be missing. */
export const place = (step, field) => JSON.stringify([step ?? null, field ?? null]);

const hashesOf = (issue) => {
  const others = issue.value.others ?? {};
  return [issue.value.packet, ...Object.keys(others).sort().map((lang) => others[lang])];
};

/** {hash, packet ({} while it is not at hand), issued: any hash issued here → its English one}. */
export function inForce(unit, packets) {
  const issued = new Map();
  for (const entry of unit.counted.values()) {
    if (entry.kind === "issue") for (const hash of hashesOf(entry)) issued.set(hash, entry.value.packet);
  }
  const [issue] = unit.ofKind("issue").slice(-1);
  if (!issue) return { hash: null, packet: {}, issued };
  const hash = hashesOf(issue).find((each) => packets[each]);
  return { hash: issue.value.packet, packet: packets[hash] ?? {}, issued };
}

export const isSigned = (step) => step.signed ?? true;

/** Whether a sign-off made under the packet `named` no longer fits the plan in force, or nobody could say so. */
export function differs(plan, named, packets) {
  const english = plan.issued.get(named);
  if (english === undefined) return true;
  if (english === plan.hash) return false;
  if (!packets[english] || !plan.packet.steps) return true;
  const before = new Map(packets[english].steps.map((step) => [step.id, step]));
  const now = new Set(plan.packet.steps.map((step) => step.id));
  const same = (step) => before.has(step.id) && canonical(before.get(step.id)) === canonical(step);
  return plan.packet.steps.some((step) => isSigned(step) && !same(step))
    || packets[english].steps.some((step) => isSigned(step) && !now.has(step.id));
}
