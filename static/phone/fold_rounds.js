// Rounds of readings of one sheet. Twin of fieldapp/record/rounds.py. The opening is null.

/** No rounds but the opening. */
export const ALONE = Object.freeze({ ids: [], heads: [null], chain: [null], back: [null], split: [] });
// A sheet with rounds before the first: a reading that names a round waits for it.
const OPENING = Object.freeze({ ...ALONE });

const after = (entry) => entry.value?.after ?? [];

// The standing rounds that this one follows; a round taken back is passed over to those it followed, one not here is the opening.
function parentsOf(own, known, stands) {
  const found = new Set();
  const seen = new Set([own]);
  const stack = [...after(known.get(own))];
  while (stack.length) {
    const id = stack.pop();
    if (seen.has(id)) continue;
    seen.add(id);
    if (!known.has(id)) found.add(null);
    else if (stands.has(id)) found.add(id);
    else stack.push(...after(known.get(id)));
  }
  return found.size ? found : found.add(null);
}

// What leads to the head, nearest first, of equals the greatest id; the opening last.
function backOf(head, parents) {
  const order = [];
  let opening = head === null;
  const seen = new Set([head]);
  for (let level = head === null ? [] : [head]; level.length;) {
    order.push(...level);
    const before = new Set(level.flatMap((id) => [...parents.get(id)]).filter((id) => !seen.has(id)));
    opening ||= before.has(null);
    for (const id of before) seen.add(id);
    level = [...before].filter((id) => id !== null).sort().reverse();
  }
  return opening ? [...order, null] : order;
}

// From the opening, or from the last round that starts afresh by naming two, up to the head.
function chainOf(head, parents, known) {
  const chain = new Set();
  for (let at = head; !chain.has(at);) {
    chain.add(at);
    if (at === null || parents.get(at).size > 1 || new Set(after(known.get(at))).size > 1) break;
    [at] = parents.get(at);
  }
  return [...chain].reverse();
}

/** The rounds of the sheet of this name: {ids, heads, chain, back, split}. */
export function roundsOf(unit, sheet) {
  const known = unit.rounds.get(sheet) ?? new Map();
  const ids = [...known.keys()].filter((id) => unit.stands.has(id)).sort();
  if (!ids.length) return OPENING;
  const parents = new Map(ids.map((id) => [id, parentsOf(id, known, unit.stands)]));
  const followed = new Set([...parents.values()].flatMap((each) => [...each]));
  const free = ids.filter((id) => !followed.has(id));
  const heads = free.length ? free : [null];
  if (heads.length > 1) return { ids, heads, chain: [], back: [], split: heads };
  return { ids, heads, chain: chainOf(heads[0], parents, known), back: backOf(heads[0], parents), split: [] };
}
