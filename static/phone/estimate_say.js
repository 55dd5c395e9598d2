// What is said of corrections and of what is built out of true. Twin of fieldapp/trade/estimate/linear_say.py.
import {fill} from "./lengths.js";

function sentence(table, made, {unfix, trim, asked, show}) {
  const words = table.sheet.say;
  const own = table.corrections.get(made.do).say;
  const places = table.sheet.rooms.say;
  const some = made.by > 0;
  const joined = list => list.join(words.join);
  const corners = joined(unfix.map(corner => table.sheet.corners[corner]));
  const parts = joined(trim.map(([at, by]) => fill(words.part, {by, place: places[at]}, show)));
  return [
    unfix.length > 0 ? fill(unfix.length === 1 ? words.unfix : words.unfix_more, {corners}, show) : "",
    some ? fill(own.move, {by: made.by}, show) : fill(words.none, {verb: own.verb}, show),
    trim.length > 0 ? fill(some ? words.trim : words.trim_first, {parts}, show) : "",
    asked.length > 0 ? fill(some || trim.length > 0 ? words.ask : words.ask_first,
      {places: joined(asked.map(([at]) => places[at]))}, show) : "",
    `. ${own.hold}`,
  ].join("");
}

/** A correction as answered: what, mm, what to trim, what to unfix, and its sentence. */
export function sayCorrection(table, made, given, show) {
  const closed = given.no_trim ?? [];
  const fixed = given.fixed ?? [];
  const unfix = table.corrections.get(made.do).takes.filter(corner => fixed.includes(corner));
  const trim = made.lacks.filter(([place]) => !closed.includes(place));
  const asked = made.lacks.filter(([place]) => closed.includes(place));
  return {do: made.do, by: made.by, ...(trim.length > 0 ? {trim: Object.fromEntries(trim)} : {}),
    ...(unfix.length > 0 ? {unfix} : {}), say: sentence(table, made, {unfix, trim, asked, show})};
}

/** The sentence on what is built out of true, by the sign of its estimate. */
export const sayBuilt = (item, estimate, show) => fill(item.say[estimate > 0 ? "+" : "-"], {by: Math.abs(estimate)}, show);
