// What an entry is to the fold. Twin of fieldapp/record/entries.py and gather.py.

export const FOLD = 1;

// Of a value only this reaches the state.
const FOLDED = {
  reading: ["nm", "over", "reversed", "u", "number", "ucum"], tick: ["ticked"], choice: ["chosen"], note: ["text"],
  move: ["sheet", "do", "nm"], round: ["sheet", "after"], release: ["second", "covers"], confirm: ["of"],
  ask: ["covers"], signoff: ["covers"], review: ["of", "is"], issue: ["packet", "others"],
};
const SUITS = { length: "reading", number: "reading", tick: "tick", choice: "choice", text: "note", date: "note", photo: "photo" };
const VALUE_KINDS = new Set(Object.values(SUITS));
const COVERED = new Set(["reading", "tick", "choice", "photo", "note", "move", "round", "release", "retract", "moved"]);
const RANKS = { kept: 1, quarantined: 2 };

/** JSON with sorted keys and no spaces, as Python's canonical writes it. */
export function canonical(what) {
  if (Array.isArray(what)) return `[${what.map(canonical).join(",")}]`;
  if (what === null || typeof what !== "object") return JSON.stringify(what);
  return `{${Object.keys(what).sort().map((key) => `${JSON.stringify(key)}:${canonical(what[key])}`).join(",")}}`;
}

/** Whether a sign-off covers entries like this one while they stand; a note only with a field. */
export const isCovered = (entry) => COVERED.has(entry.kind) && (entry.kind !== "note" || entry.field !== undefined);

/** Whether it is of a kind that is a field's value. */
export const isValue = (entry) => VALUE_KINDS.has(entry.kind);

/** Whether the entry can be a value of the packet's field; a number in another unit than the field's cannot. */
export function suits(entry, field) {
  if (SUITS[field.type] !== entry.kind) return false;
  const value = entry.value ?? {};
  if (field.type === "length") return value.nm !== undefined;
  if (field.type !== "number") return true;
  return value.number !== undefined && (field.ucum === undefined || field.ucum === null || field.ucum === value.ucum);
}

function condensed(entry) {
  const kept = { kind: entry.kind, person: entry.person ?? null };
  for (const key of ["step", "field", "round", "packet"]) if (entry[key] !== undefined && entry[key] !== null) kept[key] = entry[key];
  if (entry.replaces?.length) kept.replaces = [...new Set(entry.replaces)].sort();
  const wanted = entry.kind === "note" && kept.field === undefined ? [] : FOLDED[entry.kind] ?? [];
  const value = {};
  for (const key of wanted) if (entry.value?.[key] !== undefined && entry.value[key] !== null) value[key] = entry.value[key];
  if (Object.keys(value).length) kept.value = value;
  if (entry.server?.standing) kept.server = entry.server.standing;
  return kept;
}

// Of two accounts of one id the server's beats the phone's own, and *quarantined* beats *kept*.
function stronger(one, other) {
  const [a, b] = [RANKS[one.server] ?? 0, RANKS[other.server] ?? 0];
  if (a !== b) return a > b ? one : other;
  return canonical(one) >= canonical(other) ? one : other;
}

/** What is held (null: nothing yet) and these entries as one set, condensed; `held` is left as it is. */
export function gather(held, entries) {
  if (held && held.fold !== FOLD) throw new Error(`held by fold ${held.fold}; this is fold ${FOLD}: gather the unit's entries anew`);
  const together = { ...held?.entries };
  for (const entry of entries) {
    const made = condensed(entry);
    const had = together[entry.id];
    together[entry.id] = had ? stronger(had, made) : made;
  }
  return { fold: FOLD, entries: together };
}
