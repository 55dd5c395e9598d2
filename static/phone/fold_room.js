// Room and tilt as a linear sheet takes them, in mm. Twin of fieldapp/record/room.py and tilt.py.
import { ofRounds } from "./fold_view.js";

const NM = 1e6;  // nanometres in a millimetre

/** A length of the entry's value, mm; undefined where it has none. */
export const mm = (entry, key) => (entry.value?.[key] === undefined ? undefined : entry.value[key] / NM);

/** Whether [low, high] hold x; a side or an x that is missing asks nothing. */
export function holds(limits, x) {
  if (!limits || x === undefined) return true;
  const [low, high] = limits;
  return (low === undefined || low === null || x >= low) && (high === undefined || high === null || x <= high);
}

// Of the usable values of the newest round that has any the greatest id; a pair leaves its step open anyway.
function newest(fields, rounds, usable) {
  for (const round of rounds) {
    const here = fields.flatMap((field) => field.byRound.get(round) ?? []).filter((entry) => usable.has(entry.id));
    if (here.length) return here.reduce((best, entry) => (entry.id > best.id ? entry : best));
  }
  return null;
}

function places(unit, name, prefix) {
  const found = new Map();
  for (const { field, path } of unit.feeders.get(name)) {
    if (!path.startsWith(`${prefix}.`) || field.known.type !== "length") continue;
    const place = path.slice(prefix.length + 1);
    found.set(place, [...(found.get(place) ?? []), field]);
  }
  return found;
}

// The newest reading that the sheet holds, newest round first; those it does not hold go aside.
function pick(fields, rounds, reads, aside) {
  const usable = new Set();
  for (const field of fields) {
    for (const entry of ofRounds(field, rounds)) {
      if (reads(entry, field)) usable.add(entry.id);
      else aside.push(entry.id);
    }
  }
  return newest(fields, rounds, usable);
}

/** Tilt of the newest round that has one, mm over `over` mm; what a fresh start left behind counts too. */
export function tilt(unit, name, back, ids, aside) {
  const limits = unit.sheets.get(name).limits ?? {};
  const found = places(unit, name, "tilt");
  const overs = new Map();  // its own length, else the one that the field asks for
  const reads = (entry, field) => {
    const over = mm(entry, "over") ?? (field.known.over ? field.known.over / NM : undefined);
    overs.set(entry.id, over);
    return over !== undefined && holds(limits.tilt, mm(entry, "nm")) && holds(limits.tilt_over, over) && holds(limits.tilt_u, mm(entry, "u"));
  };
  const made = {};
  const doubts = [];
  for (const way of ["along", "through"]) {
    const read = pick(found.get(way) ?? [], back, reads, aside);
    if (!read) continue;
    ids[`tilt.${way}`] = [read.id];
    const over = overs.get(read.id);
    made.over ??= over;
    const times = made.over / over;  // both over one length, that of the first
    made[way] = mm(read, "nm") * times;
    if (mm(read, "u") !== undefined) doubts.push(mm(read, "u") * times);
  }
  return doubts.length ? { ...made, u: Math.max(...doubts) } : made;
}

// What the moves of one round give at a place, mm; negative where they take.
function change(place, done, corrections) {
  let total = 0;
  for (const move of done) {
    const correction = corrections.get(move.do);
    total += move.by * ((correction.gives?.[place] ?? 0) - (correction.needs?.[place] ?? 0));
  }
  return total;
}

/** Room by place as it is now: what was read last, less what the moves since take and plus what they give, never below none. */
export function carried(unit, name, rounds, chain, ids, aside) {
  const sheet = unit.sheets.get(name);
  const corrections = new Map((sheet.corrections ?? []).map((item) => [item.do, item]));
  const room = {};
  for (const [place, fields] of places(unit, name, "room")) {
    const read = pick(fields, [...chain].reverse(), (entry) => holds(sheet.limits?.room, mm(entry, "nm")), aside);
    if (!read) continue;
    ids[`room.${place}`] = [read.id];
    let left = mm(read, "nm");
    for (const { done } of rounds.slice(chain.indexOf(read.round ?? null))) {
      left = Math.max(0, left + change(place, done, corrections));
    }
    room[place] = left;
  }
  return room;
}
