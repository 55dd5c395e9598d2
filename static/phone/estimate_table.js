// A linear sheet and what is given to it, as rows of numbers. Twin of fieldapp/trade/estimate/linear_table.py.
// Rows are lists of [index of the unknown, factor] in the order of the sheet's unknowns: sums run in one order.

/** The row as [index, factor] pairs in the unknowns' order. */
export function sparse(table, row, times = 1) {
  const made = [];
  for (const name in row) {
    const at = table.index.get(name);
    if (at !== undefined) made.push([at, row[name] * times]);
  }
  return made.sort((a, b) => a[0] - b[0]);
}

// Mean and standard deviation of every unknown: a tool's as given, a tilt's as read over its length.
function priorOf(sheet, given) {
  const tools = {...sheet.tools, ...given.tools};
  const tilt = given.tilt ?? {};
  const prior = new Map(sheet.unknowns.map(one => [one.name, [one.mean, one.tool === undefined ? one.sd : tools[one.tool]]]));
  const u = tilt.u ?? sheet.tilt.u;
  for (const name of sheet.tilt.names) {
    if ((tilt[name] ?? null) !== null) prior.set(name, [tilt[name] / tilt.over * 1000, u / tilt.over * 1000]);
  }
  return prior;
}

// Row of a kind over its full side: with its zero error unless turned end for end.
function whole(sheet, kind, turned) {
  const known = sheet.readings[kind];
  return turned || known.zero === undefined ? known.row : {...known.row, ...known.zero};
}

// Names of the unknowns in any row that is needed.
function usedIn(sheet, given) {
  const used = new Set();
  const add = row => { for (const name in row) used.add(name); };
  for (const item of [...sheet.judged, ...sheet.built]) add(item.row);
  for (const item of sheet.corrections) add(item.column);
  for (const kind of given.can_read ?? sheet.next.can_read) add(whole(sheet, kind, sheet.next.turned.includes(kind)));
  for (const one of given.rounds ?? []) {
    for (const item of one.readings ?? []) add(whole(sheet, item.of, Boolean(item.reversed)));
  }
  return used;
}

/** Row of a reading of this kind: a level over part of its side. */
export function way(table, kind, over, turned) {
  const known = table.sheet.readings[kind];
  const part = (over ?? null) !== null && known.side !== undefined ? over / known.side : 1;
  return sparse(table, whole(table.sheet, kind, turned), part);
}

/** Default standard uncertainty of a reading of this kind, mm. */
export function doubt(table, kind, turned) {
  const known = table.sheet.readings[kind];
  return turned && known.u_reversed !== undefined ? known.u_reversed : known.u;
}

function reading(table, round, position, given) {
  const kind = given.of;
  const known = table.sheet.readings[kind];
  const turned = Boolean(given.reversed);
  const u = given.u ?? doubt(table, kind, turned);
  const key = [table.kinds.get(kind), given.over ?? known.side ?? 0, Number(turned), u, given.value];
  return {kind, row: way(table, kind, given.over, turned), value: given.value - known.constant, variance: u * u,
    round, position, given, key};
}

function byKey(a, b) {
  for (let i = 0; i < a.key.length; i += 1) if (a.key[i] !== b.key[i]) return a.key[i] - b.key[i];
  return 0;
}

/** Variance, mm², of how far a correction of `by` mm really moves. */
export function hand(sheet, by) {
  const {share, fixed} = sheet.hand;
  return share * by * (share * by) + fixed * fixed;
}

const total = values => values.reduce((sum, value) => sum + value, 0);

// What was done in one round, one move a kind of correction, in the sheet's order.
function moves(table, given) {
  if (given.length === 0) return [];
  return [...table.corrections.values()].flatMap(correction => {
    const amounts = given.filter(one => one.do === correction.do).map(one => one.by).sort((a, b) => a - b);
    return amounts.length === 0 ? [] : [{do: correction.do, column: table.columns.get(correction.do), by: total(amounts),
      variance: total(amounts.map(by => hand(table.sheet, by)))}];
  });
}

const indexed = names => new Map(names.map((name, at) => [name, at]));

/** The table of a sheet and what is given: unknowns that nothing needs, or known to be 0, are left out. */
export function make(sheet, given) {
  const prior = priorOf(sheet, given);
  const used = usedIn(sheet, given);
  const unknowns = sheet.unknowns.filter(({name}) => used.has(name) && prior.get(name).some(one => one !== 0));
  const table = {
    sheet,
    index: indexed(unknowns.map(one => one.name)),
    mean: unknowns.map(one => prior.get(one.name)[0]),
    sd: unknowns.map(one => prior.get(one.name)[1]),
    tools: new Set(unknowns.flatMap((one, at) => one.tool === undefined ? [] : [at])),
    corrections: new Map(sheet.corrections.map(item => [item.do, item])),
    kinds: indexed(sheet.kinds),
  };
  table.judged = sheet.judged.map(item => sparse(table, item.row));
  table.columns = new Map(sheet.corrections.map(item => [item.do, sparse(table, item.column)]));
  const rounds = given.rounds?.length ? given.rounds : [{}];
  table.rounds = rounds.map((one, round) =>
    (one.readings ?? []).map((each, position) => reading(table, round, position, each)).sort(byKey));
  table.done = rounds.map(one => moves(table, one.done ?? []));
  return table;
}

/** Row times a vector, summed in the row's order. By index here and in the loops below: an answer is wanted at once,
 * before the browser has made the code fast, and until then walking pairs takes several times as long. */
export function dot(row, values) {
  let result = 0;
  for (let k = 0; k < row.length; k += 1) result += row[k][1] * values[row[k][0]];
  return result;
}

/** What a row changes by for each millimetre of a correction with this column. */
export function overlap(row, column) {
  let result = 0;
  for (let k = 0; k < row.length; k += 1) {
    for (let l = 0; l < column.length; l += 1) {
      if (column[l][0] === row[k][0]) result += row[k][1] * column[l][1];
    }
  }
  return result;
}

/** Standard deviation; rounding may leave a variance a hair below 0. */
export const root = variance => variance > 0 ? Math.sqrt(variance) : 0;
