// What is given to a linear sheet, in mm. Twin of fieldapp/record/feeds_linear.py.
import { carried, holds, mm, tilt } from "./fold_room.js";
import { ALONE } from "./fold_rounds.js";
import { ofRounds } from "./fold_view.js";

const MOST_READINGS = 500;  // of all rounds together, where the sheet says nothing else

// The entry as the sheet reads it; null when the sheet's range does not hold it.
function readingOf(entry, kind, known, uRange) {
  const read = { id: entry.id, of: kind, value: mm(entry, "nm") };
  if (known.side !== undefined) {  // a level kind: over part of its side, turned end for end
    const over = mm(entry, "over");
    if (over !== undefined) read.over = over;
    if (!holds([known.over_from, known.over_to], over)) return null;
    if (entry.value.reversed) read.reversed = true;
  }
  if (mm(entry, "u") !== undefined) read.u = mm(entry, "u");
  return holds([known.from, known.to], read.value) && holds(uRange, read.u) ? read : null;
}

// Readings by round of the chain, each list by id, and the ids set aside, of too many the greatest.
function readingsOf(unit, name, rounds) {
  const { readings = {}, limits = {} } = unit.sheets.get(name);
  const found = [];
  const aside = [];
  for (const { field, path } of unit.feeders.get(name)) {
    if (!readings[path] || field.known.type !== "length") continue;
    for (const entry of rounds === ALONE ? field.now : ofRounds(field, rounds.chain)) {
      const read = readingOf(entry, path, readings[path], limits.u);
      if (read) found.push([rounds === ALONE ? null : entry.round ?? null, read]);
      else aside.push(entry.id);
    }
  }
  found.sort(([, a], [, b]) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  const most = limits.readings ?? MOST_READINGS;
  const byRound = new Map(rounds.chain.map((round) => [round, []]));
  for (const [round, read] of found.slice(0, most)) byRound.get(round).push(read);
  return [byRound, [...aside, ...found.slice(most).map(([, read]) => read.id)]];
}

// The sheet's moves by the round that led to them, and the ids of those that it cannot reckon with.
function movesOf(unit, name) {
  const { corrections = [], limits = {} } = unit.sheets.get(name);
  const known = new Set(corrections.map((item) => item.do));
  const done = new Map();
  const aside = [];
  for (const entry of unit.index.ofKind("move")) {
    if (entry.value.sheet !== name) continue;
    const by = mm(entry, "nm");
    const round = entry.round ?? null;
    if (!known.has(entry.value.do) || !holds(limits.by, by)) aside.push(entry.id);
    else done.set(round, [...(done.get(round) ?? []), { do: entry.value.do, by }]);
  }
  return [done, aside];
}

// Corners ticked as riveted; where two ticks stand against each other, the one that says riveted.
function fixedOf(feeders, ids) {
  const corners = new Set();
  for (const { field, path } of feeders) {
    const ticked = field.values.filter((entry) => entry.value?.ticked).map((entry) => entry.id);
    if (!path.startsWith("fixed.") || !ticked.length) continue;
    corners.add(path.slice("fixed.".length));
    ids[path] = [...(ids[path] ?? []), ...ticked].sort();
  }
  return [...corners].sort();
}

/** Given of a linear sheet: {rounds, tilt?, room?, fixed?, behind, unusable}. */
export function linear(unit, name) {
  const rounds = unit.rounds.get(name) ?? ALONE;
  const [readings, aside] = readingsOf(unit, name, rounds);
  const [done, odd] = movesOf(unit, name);
  const made = { rounds: rounds.chain.map((round) => ({ readings: readings.get(round), done: done.get(round) ?? [] })), behind: {} };
  const extras = {
    tilt: tilt(unit, name, rounds.back, made.behind, aside),
    room: carried(unit, name, made.rounds, rounds.chain, made.behind, aside),
    fixed: fixedOf(unit.feeders.get(name), made.behind),
  };
  for (const [key, what] of Object.entries(extras)) if (Object.keys(what).length) made[key] = what;
  return { ...made, unusable: [...new Set([...aside, ...odd])].sort() };
}
