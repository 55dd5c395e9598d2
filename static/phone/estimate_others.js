// What the other readings say of each one. Twin of fieldapp/trade/estimate/linear_others.py: the covariance of all
// readings inverted once gives every leave-one-out deviation.
import {dot, overlap} from "./estimate_table.js";

// Rows over unknowns and hand errors, one array a column; their variances; what each reading is off from the prior.
function extended(table, readings) {
  const moves = table.done.slice(0, -1).flatMap((done, round) => done.map(move => ({round, move})));
  const spread = [...table.sd.map(sd => sd * sd), ...moves.map(one => one.move.variance)];
  const columns = spread.map(() => null);
  const set = (k, i, factor) => { (columns[k] ??= new Float64Array(readings.length))[i] = factor; };
  const kinds = new Map(moves.map(({move}) => [move.do, move.column]));
  const misclosure = Float64Array.from(readings, (one, i) => {
    for (let k = 0; k < one.row.length; k += 1) set(one.row[k][0], i, one.row[k][1]);
    let expected = dot(one.row, table.mean);
    const overlaps = new Map();
    for (const [name, column] of kinds) overlaps.set(name, overlap(one.row, column));
    for (let j = 0; j < moves.length && moves[j].round < one.round; j += 1) {
      const factor = overlaps.get(moves[j].move.do);
      if (factor === 0) continue;
      set(table.mean.length + j, i, factor);
      expected += factor * moves[j].move.by;
    }
    return one.value - expected;
  });
  return {columns, spread, misclosure};
}

function covariance({columns, spread}, readings) {
  const size = readings.length;
  const result = new Float64Array(size * size);
  for (let k = 0; k < spread.length; k += 1) {
    const column = columns[k];
    if (column === null || !(spread[k] > 0)) continue;
    for (let i = 0; i < size; i += 1) {
      const scaled = column[i] * spread[k];
      if (scaled !== 0) for (let j = 0; j < size; j += 1) result[i * size + j] += scaled * column[j];
    }
  }
  for (let i = 0; i < size; i += 1) result[i * size + i] += readings[i].variance;
  return result;
}

// Inverse of a symmetric positive matrix, in place, by sweeping each row in turn (Gauss and Jordan).
function invert(a, size) {
  const column = new Float64Array(size);
  const scaled = new Float64Array(size);
  for (let k = 0; k < size; k += 1) {
    const pivot = 1 / a[k * size + k];
    for (let i = 0; i < size; i += 1) {
      column[i] = a[i * size + k];
      scaled[i] = column[i] * pivot;
    }
    for (let i = 0; i < size; i += 1) {
      const own = scaled[i];
      for (let j = 0; j < size; j += 1) a[i * size + j] -= own * column[j];
    }
    for (let i = 0; i < size; i += 1) a[k * size + i] = a[i * size + k] = scaled[i];
    a[k * size + k] = -pivot;
  }
  for (let i = 0; i < a.length; i += 1) a[i] = -a[i];
  return a;
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
    const column = new Float64Array(size);
    for (let i = 0; i < size; i += 1) column[i] = b[i * size + at];
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

  /** What each of these set aside says less what those say that are not, mm; errors of tools are not told by others. */
  against(ats) {
    const {columns, spread, misclosure} = this.known;
    const weights = times(this.b, misclosure);
    return ats.map(at => {
      const across = new Float64Array(this.size);
      columns.forEach((column, k) => {
        if (column === null || this.tools.has(k) || column[at] === 0 || !(spread[k] > 0)) return;
        const factor = column[at] * spread[k];
        for (let i = 0; i < this.size; i += 1) across[i] += column[i] * factor;
      });
      let said = 0;
      for (let i = 0; i < this.size; i += 1) said += across[i] * weights[i];
      return misclosure[at] - said;
    });
  }
}
