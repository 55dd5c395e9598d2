// Room around the frame: what a correction needs, takes and gives, mm. Twin of fieldapp/trade/estimate/linear_room.py.

const CLEAR = 1e-9;

/** Room as given; places that have none unless given have none; other places are not limited. */
export function atFirst(sheet, given) {
  return {...Object.fromEntries(sheet.rooms.none_unless_given.map(place => [place, 0])), ...given.room};
}

// Room left at a place, or at the mean of two; undefined where it is not limited.
function left(sheet, room, place) {
  const of = sheet.rooms.means[place];
  if (of === undefined) return room[place];
  if (of.some(one => room[one] === undefined)) return undefined;
  return of.reduce((sum, one) => sum + room[one], 0) / of.length;
}

/** The correction cut back to whole steps that its room allows: {do, by, wanted, lacks: [[place, mm]]}. */
export function cut(sheet, room, correction, wanted, step) {
  let by = wanted;
  const lacks = [];
  for (const place of sheet.rooms.places) {
    const each = correction.needs[place];
    const there = left(sheet, room, place);
    if (each === undefined || there === undefined || each * wanted <= there + CLEAR) continue;
    lacks.push([place, each * wanted - there]);
    by = Math.min(by, Math.max(0, Math.floor(there / each / step + CLEAR)) * step);
  }
  return {do: correction.do, by, wanted, lacks};
}

/** Room once the correction is made. */
export function after(sheet, room, correction, by) {
  const changed = {...room};
  for (const place of sheet.rooms.places) {
    const each = (correction.gives[place] ?? 0) - (correction.needs[place] ?? 0);
    if (changed[place] !== undefined && each !== 0) changed[place] = Math.max(0, changed[place] + each * by);
  }
  return changed;
}
