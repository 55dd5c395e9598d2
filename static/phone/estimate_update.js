// Estimate and covariance of the unknowns, reading by reading. Twin of fieldapp/trade/estimate/linear_update.py:
// Joseph form, kept symmetric, every sum in the same order, so that both languages give the same bits.
import {dot} from "./estimate_table.js";

/** Estimate `x` (n) and covariance `p` (n × n, row after row) of a table's unknowns. */
export class State {
  constructor(x, p) {
    this.x = x;
    this.p = p;
  }

  copy() {
    return new State(this.x.slice(), this.p.slice());
  }

  /** Covariance of every unknown with a row (n). */
  across(row, result = new Float64Array(this.x.length)) {
    const {p} = this;
    const n = this.x.length;
    for (let k = 0; k < row.length; k += 1) {
      const from = row[k][0] * n;
      const factor = row[k][1];
      for (let i = 0; i < n; i += 1) result[i] = (k === 0 ? 0 : result[i]) + p[from + i] * factor;
    }
    return result;
  }

  value(row) {
    return dot(row, this.x);
  }

  variance(row) {
    return Math.max(0, dot(row, this.across(row)));
  }

  /** Take a reading: row·x = value with this variance of its own. */
  read(row, value, variance) {
    const {p, x} = this;
    const n = x.length;
    const {across, gain, left, less} = this.room ??= rooms(n);
    this.across(row, across);
    const whole = dot(row, across) + variance;
    for (let i = 0; i < n; i += 1) gain[i] = across[i] / whole;
    for (let i = 0, k = 0; i < n; i += 1) {
      const own = gain[i];
      for (let j = 0; j < n; j += 1, k += 1) less[k] = p[k] - own * across[j];
    }
    for (let i = 0; i < n; i += 1) {
      left[i] = 0;
      for (let k = 0; k < row.length; k += 1) left[i] += less[i * n + row[k][0]] * row[k][1];
    }
    for (let i = 0; i < n; i += 1) {
      for (let j = 0, k = i * n, l = i; j <= i; j += 1, k += 1, l += n) {
        const one = less[k] - left[i] * gain[j] + gain[i] * variance * gain[j];
        const other = less[l] - left[j] * gain[i] + gain[j] * variance * gain[i];
        p[k] = p[l] = (one + other) * 0.5;
      }
    }
    const off = value - dot(row, x);
    for (let i = 0; i < n; i += 1) x[i] += gain[i] * off;
  }

  /** A correction made: the unknowns move by its column, and the hand's doubt is added. */
  move({column, by, variance}) {
    const n = this.x.length;
    for (const [at, factor] of column) this.x[at] += factor * by;
    for (const [at, factor] of column) {
      for (const [other, times] of column) this.p[at * n + other] += factor * variance * times;
    }
  }
}

// What `read` works with, made once for all readings of a state.
const rooms = n => ({across: new Float64Array(n), gain: new Float64Array(n), left: new Float64Array(n),
  less: new Float64Array(n * n)});

/** The state before any reading. */
export function prior(table) {
  const n = table.mean.length;
  const p = new Float64Array(n * n);
  table.sd.forEach((sd, at) => { p[at * n + at] = sd * sd; });
  return new State(Float64Array.from(table.mean), p);
}

/** The state after every round's readings (but those set aside) and what was done after each. */
export function now(table, aside) {
  const state = prior(table);
  table.rounds.forEach((readings, round) => {
    for (const one of readings) if (!aside.has(one)) state.read(one.row, one.value, one.variance);
    for (const move of table.done[round]) state.move(move);
  });
  return state;
}
