// What is given to each sheet now. Twin of fieldapp/record/feeds.py.
import { linear } from "./fold_linear.js";
import { holds, mm } from "./fold_room.js";

// A reading's value: mm, or the field's own unit.
const figure = (entry) => mm(entry, "nm") ?? entry.value.number;

// The mean of readings, with the u of one: the greatest where each states one, else the sheet's own.
function amount(entries, banded) {
  let total = 0;
  for (const entry of entries) total += figure(entry);
  const value = total / entries.length;
  if (!banded) return value;
  const doubts = entries.map((entry) => mm(entry, "u")).filter((u) => u !== undefined);
  return doubts.length === entries.length ? { value, u: Math.max(...doubts) } : { value };
}

const KEY = { tick: "ticked", choice: "chosen", note: "text" };

// [value, entries behind it, entries set aside]; a pair gives nothing: neither of the two is settled.
function inputOf(field, limits, banded) {
  if (field.pair) return [null, [], []];
  const readings = field.now.filter((entry) => entry.kind === "reading");
  if (!readings.length) {
    const last = field.now.slice(-1);
    return [last.length ? last[0].value?.[KEY[last[0].kind]] ?? null : null, last, []];
  }
  const fits = (entry) => holds([limits.from, limits.to], figure(entry));
  const usable = readings.filter(fits);
  return [usable.length ? amount(usable, banded) : null, usable, readings.filter((entry) => !fits(entry))];
}

function inputs(unit, name) {
  const sheet = unit.sheets.get(name);
  const limits = new Map((sheet.inputs ?? []).map((item) => [item.name, item]));
  const made = { inputs: {}, behind: {}, unusable: [] };
  for (const { field, path } of unit.feeders.get(name)) {
    const [value, used, aside] = inputOf(field, limits.get(path) ?? {}, sheet.kind === "band");
    made.unusable.push(...aside.map((entry) => entry.id));
    if (value === null) continue;
    made.inputs[path] = value;
    made.behind[path] = used.map((entry) => entry.id);
  }
  return { ...made, unusable: [...new Set(made.unusable)].sort() };
}

/**
 * What is given to the sheet; null where its part is not at hand or its rounds are split. Beside what the sheet reads:
 * `behind`, the entries behind each input {path: [ids]}; `ids`, all it rests on, moves aside; `unusable`, what was set aside.
 */
export function fed(unit, name) {
  const sheet = unit.sheets.get(name);
  if (!sheet || !Object.keys(sheet).length || unit.rounds.get(name)?.split.length) return null;
  const made = sheet.kind === "linear" ? linear(unit, name) : inputs(unit, name);
  const read = (made.rounds ?? []).flatMap((each) => each.readings.map((one) => one.id));
  return { ...made, ids: [...new Set([...Object.values(made.behind).flat(), ...read])].sort() };
}
