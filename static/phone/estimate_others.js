// What the other readings say of each one. Twin of fieldapp/trade/estimate/linear_others.py: the covariance of all
// readings inverted once gives every leave-one-out deviation.
import {dot} from "./estimate_table.js";

// What a reading changes by for each millimetre of a correction.
function overlap(reading, column) {
  const factors = new Map(reading.row);
  let result = 0;
  for (const [at, factor] of column) result += (factors.get(at) ?? 0) * factor;
  return result;
}

// Rows over unknowns and hand errors, one array a column; their variances; what each reading is off from the prior.
function extended(table, readings) {
  const moves = table.done.slice(0, -1).flatMap((done, round) => done.map(move => ({round, move})));
  const spread = [...table.sd.map(sd => sd * sd), ...moves.map(one => one.move.variance)];
  const columns = spread.map(() => null);
  const set = (k, i, factor) => { (columns[k] ??= new Float64Array(readings.length))[i] = factor; };
  const misclosure = readings.map((one, i) => {
    for (const [at, factor] of one.row) set(at, i, factor);
    let expected = dot(one.row, table.mean);
    moves.forEach(({round, move}, j) => {
      if (round >= one.round) return;
      const factor = overlap(one, move.column);
      set(table.mean.length + j, i, factor);
      expected += factor * move.by;
    });
    return one.value - expected;
  });
  return {columns, spread, misclosure};
}

function covariance({columns, spread}, readings) {
  const size = readings.length;
  const result = new Float64Array(size * size);
  spread.forEach((variance, k) => {
    const column = columns[k];
    if (!(variance > 0) || column === null) return;
    for (let i = 0; i < size; i += 1) {
      const scaled = column[i] * variance;
      if (scaled !== 0) for (let j = 0; j < size; j += 1) result[i * size + j] += scaled * column[j];
    }
  });
  readings.forEach((one, i) => { result[i * size + i] += one.variance; });
  return result;
}

// Inverse of a symmetric positive matrix, in place, by sweeping each row in turn (Gauss and Jordan).
function invert(a, size) {
  for (let k = 0; k < size; k += 1) {
    const pivot = 1 / a[k * size + k];
    const column = Float64Array.from({length: size}, (_, i) => a[i * size + k]);
    const scaled = column.map(one => one * pivot);
    for (let i = 0; i < size; i += 1) {
      const own = scaled[i];
      for (let j = 0; j < size; j += 1) a[i * size + j] -= own * column[j];
    }
    for (let i = 0; i < size; i += 1) a[k * size + i] = a[i * size + k] = scaled[i];
    a[k * size + k] = -pivot;
  }
  return a.map(one => -one);
}

function times(matrix, vector) {
  const size = vector.length;
  const result = new Float64Array(size);
  for (let k = 0; k < size; k += 1) for (let i = 0; i < size; i += 1) result[i] += matrix[i * size + k] * vector[k];
  return result;
}

/** Inverse covariance `b` and weighted misclosure `w` of all readings but those set aside. */
export class Others {
  constructor(table) {
    this.readings = table.rounds.flat();
    this.size = this.readings.length;
    this.known = extended(table, this.readings);
    this.tools = table.tools;
    this.aside = new Set();
    this.b = invert(covariance(this.known, this.readings), this.size);
    this.w = times(this.b, this.known.misclosure);
  }

  own(at) {
    return this.b[at * this.size + at];
  }

  /** Standard deviation of a reading less what the others say, mm. */
  doubt(at) {
    return 1 / Math.sqrt(this.own(at));
  }

  /** How far a reading lies off what the others say, in standard deviations. */
  deviation(at) {
    return Math.abs(this.w[at]) / Math.sqrt(this.own(at));
  }

  /** How much chi-square falls when the reading is taken to be off by `shift` mm. */
  gain(at, shift) {
    return shift * (2 * this.w[at] - shift * this.own(at));
  }

  /** The same when one is off by `shift` and the other by −shift. */
  gainBoth(one, other, shift) {
    const pull = 2 * (this.w[one] - this.w[other]);
    return shift * (pull - shift * (this.own(one) - 2 * this.b[one * this.size + other] + this.own(other)));
  }

  /** Leave a reading out of everything from here on. */
  setAside(at) {
    const {b, w, size} = this;
    const pivot = 1 / this.own(at);
    const column = Float64Array.from({length: size}, (_, i) => b[i * size + at]);
    const pull = pivot * w[at];
    for (let i = 0; i < size; i += 1) {
      w[i] -= column[i] * pull;
      const scaled = column[i] * pivot;
      for (let j = 0; j < size; j += 1) b[i * size + j] -= scaled * column[j];
    }
    for (let i = 0; i < size; i += 1) b[at * size + i] = b[i * size + at] = 0;
    w[at] = 0;
    this.aside.add(at);
  }

  /** What a reading set aside says less what those say that are not, mm; errors of tools are not told by others. */
  against(at) {
    const {columns, spread, misclosure} = this.known;
    const across = new Float64Array(this.size);
    columns.forEach((column, k) => {
      if (column === null || this.tools.has(k) || column[at] === 0 || !(spread[k] > 0)) return;
      const factor = column[at] * spread[k];
      for (let i = 0; i < this.size; i += 1) across[i] += column[i] * factor;
    });
    const weights = times(this.b, across);
    let said = 0;
    for (let i = 0; i < this.size; i += 1) said += weights[i] * misclosure[i];
    return misclosure[at] - said;
  }
}
