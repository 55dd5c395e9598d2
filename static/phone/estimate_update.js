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
  across(row) {
    const n = this.x.length;
    const result = new Float64Array(n);
    for (const [at, factor] of row) for (let i = 0; i < n; i += 1) result[i] += this.p[at * n + i] * factor;
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
    const across = this.across(row);
    const whole = dot(row, across) + variance;
    const gain = across.map(one => one / whole);
    const less = this.less ??= new Float64Array(n * n);
    for (let i = 0, k = 0; i < n; i += 1) {
      const own = gain[i];
      for (let j = 0; j < n; j += 1, k += 1) less[k] = p[k] - own * across[j];
    }
    const left = new Float64Array(n);
    for (const [at, factor] of row) for (let i = 0; i < n; i += 1) left[i] += less[i * n + at] * factor;
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        const one = less[i * n + j] - left[i] * gain[j] + gain[i] * variance * gain[j];
        const other = less[j * n + i] - left[j] * gain[i] + gain[j] * variance * gain[i];
        p[i * n + j] = p[j * n + i] = (one + other) * 0.5;
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
