// The corrections to make: planned group by group, cut back by the room. Twin of
// fieldapp/trade/estimate/linear_moves.py.
import {INSIDE} from "./chance.js";
import {judged} from "./estimate_judged.js";
import {best, makeGroup} from "./estimate_plan.js";
import {after, atFirst, cut} from "./estimate_room.js";
import {hand} from "./estimate_table.js";

/** {made, then}: the corrections in the sheet's order, and the state once they are made. */
export function corrections(table, state, given) {
  const job = {table, fixed: given.fixed ?? [], step: table.sheet.step[given.show ?? "mm"]};
  const then = state.copy();
  const made = [];
  let room = atFirst(table.sheet, given);
  for (const item of table.sheet.groups) room = group(job, then, item, room, made);
  return {made, then};
}

// Plan a group and make its moves, planning the rest anew whenever one was cut back.
function group(job, then, item, room, made) {
  const {table} = job;
  const rows = item.rows.map(row => table.sheet.corrections.filter(one => one.row === row).map(one => one.do));
  const known = knownOf(job, then, item);
  let plan = planOf(job, then, known, rows);
  let left = room;
  rows.forEach((row, at) => {
    const wanted = plan.find(([name]) => row.includes(name));
    if (wanted === undefined) return;
    const possible = possibleOf(table, left, wanted, job.step);
    made.push(possible);
    make(table, then, possible);
    left = after(table.sheet, left, table.corrections.get(possible.do), possible.by);
    if (possible.by < possible.wanted) plan = planOf(job, then, known, rows.slice(at + 1));
  });
  return left;
}

// The group's quantities that a move may be built on; none unless those are known that every move needs.
function knownOf(job, then, item) {
  const known = judged(job.table, then, item.judged).filter(one => one.known).map(one => one.what);
  return item.known.every(what => known.includes(what)) ? item.judged.filter(what => known.includes(what)) : [];
}

// The best moves of these rows; none unless something known is not inside.
function planOf(job, then, known, rows) {
  const named = new Map(judged(job.table, then, known).map(one => [one.what, one]));
  const quantities = known.map(what => named.get(what));
  if (rows.length === 0 || quantities.every(one => one.verdict === INSIDE)) return [];
  return best(makeGroup(job.table, then, quantities, rows.flat(), job.fixed, job.step), rows);
}

// The move as far as its room goes; or the one to make in its place where that goes further.
function possibleOf(table, room, [name, by], step) {
  const correction = table.corrections.get(name);
  const first = cut(table.sheet, room, correction, by, step);
  const other = correction.instead;
  if (other === undefined || !first.lacks.some(([place]) => other.where.includes(place))) return first;
  const second = cut(table.sheet, room, table.corrections.get(other.do), by, step);
  return second.by > first.by ? second : first;
}

function make(table, then, {do: name, by}) {
  if (by > 0) then.move({do: name, column: table.columns.get(name), by, variance: hand(table.sheet, by)});
}
