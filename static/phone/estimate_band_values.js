// Band sheets, first half: what the inputs say about each value, and how surely.
// Twin of fieldapp/trade/estimate/band_values.py, which says what a sheet holds.

/** x without the dust of binary sums: within 1e-11 of a multiple of 1e-9 it is that multiple; never -0. */
export function tidy(x) {
  if (Math.abs(x) >= 1e6) return x + 0;
  const near = Math.floor(x * 1e9 + 0.5) / 1e9;
  return (Math.abs(near - x) < 1e-11 ? near : x) + 0;
}

/** {path: [value, u]} of what is given, or stands in the sheet. */
export function inputs(sheet, given) {
  const known = {};
  for (const item of sheet.inputs) {
    const raw = given.inputs?.[item.name] ?? item.value ?? null;
    if (raw === null) continue;
    const exact = (item.exact_zero ?? false) && raw === 0;
    const read = typeof raw === "object" ? raw : {value: raw};
    known[item.name] = [read.value, read.u ?? (exact ? 0 : item.u ?? 0)];
  }
  return known;
}

/** A limit in the unit of what it limits; null where that side is open. */
export function limit(spec, known) {
  if (spec === null || typeof spec !== "object") return spec ?? null;
  const least = spec.least.filter(path => path in known).map(path => known[path][0]);
  return least.length ? tidy(spec.times * Math.min(...least)) : null;
}

// Cell of the axis that holds x and how far into it, 0 to 1; null beyond the ends.
function between(at, x) {
  if (!(at[0] <= x && x <= at[at.length - 1])) return null;
  let cell = 0;
  while (cell + 1 < at.length - 1 && at[cell + 1] <= x) cell += 1;
  return [cell, (x - at[cell]) / (at[cell + 1] - at[cell])];
}

// Value and slopes of a table of one or two axes, linear between its points.
function readGrid(grid, known) {
  const cells = grid.axes.map(axis => between(axis.at, known[axis.of][0]));
  if (cells.includes(null)) return null;
  const [first, second] = grid.axes;
  const [i, s] = cells[0];
  const table = grid.table;
  const width = first.at[i + 1] - first.at[i];
  if (!second) {
    const rise = table[i + 1] - table[i];
    return [table[i] + s * rise, {[first.of]: rise / width}];
  }
  const [j, t] = cells[1];
  const near = table[i][j] + t * (table[i][j + 1] - table[i][j]);
  const far = table[i + 1][j] + t * (table[i + 1][j + 1] - table[i + 1][j]);
  const left = table[i][j] + s * (table[i + 1][j] - table[i][j]);
  const right = table[i][j + 1] + s * (table[i + 1][j + 1] - table[i][j + 1]);
  const slopes = {[first.of]: (far - near) / width, [second.of]: (right - left) / (second.at[j + 1] - second.at[j])};
  return [near + s * (far - near), slopes];
}

function paths(value) {
  const axes = value.grid?.axes ?? [];
  return [...value.ratio ?? [], ...(value.sum ?? []).map(([path]) => path), ...axes.map(axis => axis.of)];
}

function ratio([first, second], known) {
  const [top, uTop] = known[first];
  const [bottom, uBottom] = known[second];
  if (bottom === 0) return null;
  const u = 100 / Math.abs(bottom) * Math.sqrt(uTop ** 2 + (top / bottom * uBottom) ** 2);
  return [tidy(100 * (bottom - top) / bottom), u];
}

function one(value, known) {
  if (paths(value).some(path => !(path in known))) return null;
  if (value.ratio) return ratio(value.ratio, known);
  let estimate = value.plus ?? 0;
  const slopes = {};
  const add = (path, slope) => { slopes[path] = (slopes[path] ?? 0) + slope; };
  for (const [path, times] of value.sum ?? []) {
    estimate += times * known[path][0];
    add(path, times);
  }
  if (value.grid) {
    const read = readGrid(value.grid, known);
    if (read === null) return null;
    const times = value.grid.times ?? 1;
    estimate += times * read[0];
    for (const [path, slope] of Object.entries(read[1])) add(path, times * slope);
  }
  const squares = Object.entries(slopes).map(([path, slope]) => (slope * known[path][1]) ** 2);
  return [tidy(estimate), Math.sqrt(squares.reduce((sum, square) => sum + square, 0))];
}

/** {name: [estimate, u]} of every value whose inputs are all known and inside the sheet's grid. */
export function values(sheet, known) {
  const found = sheet.values.map(value => [value.name, one(value, known)]);
  return Object.fromEntries(found.filter(([, read]) => read !== null));
}
