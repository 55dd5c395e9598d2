// Which corrections of a group, and by how much. Twin of fieldapp/trade/estimate/linear_plan.py.
import {joint} from "./estimate_joint.js";
import {dot, hand, overlap} from "./estimate_table.js";

const CLEAR = 1e-9;
const WINDOW = 2;  // steps either side of the least-squares amount

/** The group's numbers from the state of all unknowns; a correction that takes fixed corners along costs more. */
export function makeGroup(table, state, quantities, corrections, fixed, step) {
  const across = quantities.map(item => state.across(item.row));
  const {price, unfix} = table.sheet.worth;
  const known = corrections.map(name => table.corrections.get(name));
  return {
    table, step,
    mean: quantities.map(item => item.estimate),
    covariance: across.map(one => quantities.map(item => dot(item.row, one))),
    tolerance: quantities.map(item => item.tolerance),
    effects: new Map(known.map(one => [one.do, quantities.map(item => overlap(item.row, table.columns.get(one.do)))])),
    prices: new Map(known.map(one => [one.do, price + unfix * one.takes.filter(corner => fixed.includes(corner)).length])),
  };
}

/** How good the group would be after these moves ([[do, by]]): from 0 to 1, less the sheet's price of each. */
export function worth(group, moves) {
  const mean = [...group.mean];
  const covariance = group.covariance.map(row => [...row]);
  for (const [name, by] of moves) {
    const effects = group.effects.get(name);
    const variance = hand(group.table.sheet, by);
    for (let i = 0; i < effects.length; i += 1) {
      mean[i] += effects[i] * by;
      const row = covariance[i];
      for (let j = 0; j < effects.length; j += 1) row[j] += effects[i] * variance * effects[j];
    }
  }
  const {together, each} = joint(mean, covariance, group.tolerance);
  const share = group.table.sheet.worth.each;
  let value = (1 - share) * together;
  for (const one of each) value += share * one / each.length;
  for (const [name] of moves) value -= group.prices.get(name);
  return value;
}

/** The best moves, at most one of each row, in the rows' order; [] when nothing is worth making. */
export function best(group, rows) {
  let found = [];
  const rule = group.table.sheet.worth;
  const back = rule.back ?? 0;
  const least = worth(group, []) * (1 + (rule.keep ?? 0)) + rule.least;
  let most = 0;
  for (const choice of choices(rows)) {
    const amounts = amountsOf(group, choice);
    if (amounts.some(one => one <= 0)) continue;
    const tried = around(group, choice, amounts);
    const gains = tried.value + back * tried.moves.length > least + CLEAR;
    if (gains && (found.length === 0 || tried.value > most + CLEAR)) {
      found = tried.moves;
      most = tried.value;
    }
  }
  return found;
}

// Every choice of at most one of each row, none at all left out; the last row changes fastest.
function choices(rows) {
  const all = rows.reduce((made, row) => made.flatMap(one => [one, ...row.map(name => [...one, name])]), [[]]);
  return all.filter(one => one.length > 0);
}

function product(one, other) {
  let result = 0;
  for (let i = 0; i < one.length; i += 1) result += one[i] * other[i];
  return result;
}

// Amounts, mm, that bring the quantities nearest to 0 in units of their tolerances (least squares).
function amountsOf(group, chosen, mean = group.mean) {
  const rows = chosen.map(name => group.effects.get(name).map((one, i) => one / group.tolerance[i]));
  const off = mean.map((one, i) => -one / group.tolerance[i]);
  if (rows.length === 1) return [product(rows[0], off) / product(rows[0], rows[0])];
  if (rows.length > 2) return rows.map(() => 0);
  const [a, b, c] = [product(rows[0], rows[0]), product(rows[0], rows[1]), product(rows[1], rows[1])];
  const [p, q] = [product(rows[0], off), product(rows[1], off)];
  const whole = a * c - b * b;
  return whole > CLEAR ? [(c * p - b * q) / whole, (a * q - b * p) / whole] : [0, 0];
}

const nearest = value => Math.floor(value + 0.5);

// The best whole steps near the amounts: the first in a window, the last climbed for each.
function around(group, chosen, amounts) {
  const first = nearest(amounts[0] / group.step);
  if (chosen.length === 1) return climb(group, [], chosen[0], first);
  let found = climb(group, [[chosen[0], first * group.step]], chosen[1], follow(group, chosen, first));
  for (let steps = Math.max(1, first - WINDOW); steps <= first + WINDOW; steps += 1) {
    if (steps === first) continue;
    const tried = climb(group, [[chosen[0], steps * group.step]], chosen[1], follow(group, chosen, steps));
    if (tried.value > found.value + CLEAR) found = tried;
  }
  return found;
}

// Steps of the second move that fit best with so many of the first.
function follow(group, chosen, steps) {
  const effects = group.effects.get(chosen[0]);
  const moved = group.mean.map((one, i) => one + effects[i] * steps * group.step);
  return nearest(amountsOf(group, chosen.slice(1), moved)[0] / group.step);
}

// The best number of steps, at least one, by climbing from `start`.
function climb(group, before, name, start) {
  const at = steps => {
    const moves = [...before, [name, steps * group.step]];
    return {moves, value: worth(group, moves)};
  };
  let steps = Math.max(1, start);
  let found = at(steps);
  for (const way of [1, -1]) {
    for (;;) {
      if (steps + way < 1) break;
      const tried = at(steps + way);
      if (tried.value <= found.value + CLEAR) break;
      found = tried;
      steps += way;
    }
  }
  return found;
}
