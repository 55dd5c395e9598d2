// A linear sheet evaluated: verdicts, and the whole answer. Twin of fieldapp/trade/estimate/linear.py. Knows no trade.
import {judged, said} from "./estimate_judged.js";
import {corrections} from "./estimate_moves.js";
import {following} from "./estimate_next.js";
import {sayBuilt, sayCorrection} from "./estimate_say.js";
import {suspects} from "./estimate_suspects.js";
import {make, root, sparse} from "./estimate_table.js";
import {now} from "./estimate_update.js";

// To 0.01 and to 0.0001, a half up, never -0; as the twin does it.
const hundredth = value => Math.floor(value * 100 + 0.5) / 100;
const fine = value => Math.floor(value * 10000 + 0.5) / 10000;

/** {what: verdict}; `not known` where the doubt is wider than the tolerance and it is not outside. */
export function judge(sheet, given) {
  const table = make(sheet, given);
  const state = now(table, new Set(suspects(table).map(one => one.reading)));
  return Object.fromEntries(judged(table, state).map(item => [item.what, said(item)]));
}

/** The answer's figures as they are, unrounded, mm: {judged, after: [[estimate, u, chance]], suspects, moves}. */
export function figures(sheet, given) {
  const table = make(sheet, given);
  const aside = suspects(table);
  const state = now(table, new Set(aside.map(one => one.reading)));
  const {made, then} = corrections(table, state, given);
  return {
    judged: judged(table, state).map(item => [item.estimate, item.u, item.chance]),
    after: judged(table, then).map(item => [item.estimate, item.u, item.chance]),
    suspects: aside.map(one => [one.reading.round, one.reading.position, one.off_by]),
    moves: made.map(one => [one.do, one.by]),
  };
}

/** The whole answer: lengths to 0.01 mm, chances to 0.0001 (a correction's `by` as it is). */
export function answer(sheet, given) {
  const table = make(sheet, given);
  const aside = suspects(table);
  const state = now(table, new Set(aside.map(one => one.reading)));
  const quantities = judged(table, state);
  const {made, then} = corrections(table, state, given);
  const show = given.show ?? "mm";
  return {
    judged: quantities.map(item => ({...known(item), tolerance: hundredth(item.tolerance), verdict: item.verdict})),
    corrections: made.map(one => rounded(sayCorrection(table, one, given, show))),
    after: judged(table, then).map(known),
    expect: expect(table, then),
    suspects: aside.map(suspect),
    built: built(table, state, show),
    next: following(table, state, quantities, given, made),
    leave_alone: made.length === 0 && quantities.every(item => item.known),
  };
}

const known = ({what, estimate, u, chance}) =>
  ({what, estimate: hundredth(estimate), u: hundredth(u), chance_inside: fine(chance)});

function rounded(correction) {
  if (correction.trim) {
    correction.trim = Object.fromEntries(Object.entries(correction.trim).map(([place, lack]) => [place, hundredth(lack)]));
  }
  return correction;
}

function suspect({reading, off_by, cause, likely}) {
  const named = reading.given.id === undefined ? {} : {id: reading.given.id};
  return {of: reading.kind, round: reading.round, reading: reading.position, ...named, off_by: hundredth(off_by), cause, likely};
}

// Turned end for end before not, the longer before the shorter, the surer before the less sure.
function sharper(one, other) {
  const rank = each => [each.key[2], each.key[1], -each.variance];
  const [a, b] = [rank(one), rank(other)];
  const at = a.findIndex((value, i) => value !== b[i]);
  return at >= 0 && a[at] > b[at];
}

// What each kind just read should read once the corrections are made, read the same way.
function expect(table, then) {
  const ways = new Map();
  for (const one of table.rounds.at(-1)) {
    if (!ways.has(one.kind) || sharper(one, ways.get(one.kind))) ways.set(one.kind, one);
  }
  return [...ways].map(([kind, one]) => ({of: kind, value: hundredth(then.value(one.row) + table.sheet.readings[kind].constant),
    u: hundredth(Math.sqrt(then.variance(one.row) + one.variance))}));
}

// What exceeds both its tolerance and twice its doubt: no correction mends it.
function built(table, state, show) {
  return table.sheet.built.flatMap(item => {
    const row = sparse(table, item.row);
    const estimate = state.value(row);
    const u = root(state.variance(row));
    if (!(Math.abs(estimate) > item.tolerance && Math.abs(estimate) > 2 * u)) return [];
    return [{what: item.what, estimate: hundredth(estimate), u: hundredth(u), say: sayBuilt(item, estimate, show)}];
  });
}
