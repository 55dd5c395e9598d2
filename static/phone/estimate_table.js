// A linear sheet and what is given to it, as rows of numbers. Twin of fieldapp/trade/estimate/linear_table.py.
// Rows are lists of [index of the unknown, factor] in the order of the sheet's unknowns: sums run in one order.

/** The row as [index, factor] pairs in the unknowns' order. */
export function sparse(table, row, times = 1) {
  return Object.entries(row).map(([name, value]) => [table.index.get(name), value * times]).sort((a, b) => a[0] - b[0]);
}

// Prior of the tilts given: read over `over` mm with `u` mm; those not given stay exactly as the sheet has them.
function tilt(table, given) {
  const u = given.u ?? table.sheet.tilt.u;
  for (const name of table.sheet.tilt.names) {
    if ((given[name] ?? null) === null) continue;
    table.mean[table.index.get(name)] = given[name] / given.over * 1000;
    table.sd[table.index.get(name)] = u / given.over * 1000;
  }
}

/** Row of a reading of this kind: a level over part of its side, its zero error unless turned end for end. */
export function way(table, kind, over, turned) {
  const known = table.sheet.readings[kind];
  if (known.side === undefined) return sparse(table, known.row);
  const row = turned ? known.row : {...known.row, ...known.zero};
  return sparse(table, row, (over ?? known.side) / known.side);
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
  return [...table.corrections.values()].flatMap(correction => {
    const amounts = given.filter(one => one.do === correction.do).map(one => one.by).sort((a, b) => a - b);
    return amounts.length === 0 ? [] : [{column: sparse(table, correction.column), by: total(amounts),
      variance: total(amounts.map(by => hand(table.sheet, by)))}];
  });
}

const indexed = names => new Map(names.map((name, at) => [name, at]));

/** The table of a sheet and what is given: prior from tools and tilt, readings and moves of every round. */
export function make(sheet, given) {
  const tools = {...sheet.tools, ...given.tools};
  const table = {
    sheet,
    index: indexed(sheet.unknowns.map(item => item.name)),
    mean: sheet.unknowns.map(item => item.mean),
    sd: sheet.unknowns.map(item => item.tool === undefined ? item.sd : tools[item.tool]),
    corrections: new Map(sheet.corrections.map(item => [item.do, item])),
    kinds: indexed(sheet.kinds),
  };
  tilt(table, given.tilt ?? {});
  const rounds = given.rounds?.length ? given.rounds : [{}];
  table.rounds = rounds.map((one, round) =>
    (one.readings ?? []).map((each, position) => reading(table, round, position, each)).sort(byKey));
  table.done = rounds.map(one => moves(table, one.done ?? []));
  return table;
}

/** Row times a vector, summed in the row's order. */
export function dot(row, values) {
  let result = 0;
  for (const [at, factor] of row) result += factor * values[at];
  return result;
}

/** Standard deviation; rounding may leave a variance a hair below 0. */
export const root = variance => variance > 0 ? Math.sqrt(variance) : 0;
