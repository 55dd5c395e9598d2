// The fold: a unit's state as a pure function of the set of its entries (state.md). Twin of fieldapp/record/fold.py.
//
// entries: wire entries, sent and unsent, in any order; packets, parts: {hash: plain object}, all packets issued on the
// unit that are here and the sheets of the one in force.
import { judge as estimateJudge } from "./estimate.js";
import { canonical, FOLD, gather } from "./fold_entries.js";
import { fed } from "./fold_feeds.js";
import { offers } from "./fold_offers.js";
import { roundsOf } from "./fold_rounds.js";
import { covered, isThrough, signoffsOf, waitingOf } from "./fold_signoffs.js";
import { index, inForce, isSigned } from "./fold_standing.js";
import { stepsOf } from "./fold_steps.js";
import { view } from "./fold_view.js";

export { canonical, FOLD, gather };

// Where rounds are split every verdict is null; a sheet not at hand has none.
function sheetOf(unit, name, judge) {
  const sheet = unit.sheets.get(name);
  const { ids, split } = unit.rounds.get(name) ?? { ids: [], split: [] };
  const feed = fed(unit, name);
  if (feed) return { rounds: ids, split, unusable: feed.unusable, verdicts: judge(sheet, feed) };
  return { rounds: ids, split, unusable: [], verdicts: Object.fromEntries((sheet.judged ?? []).map((item) => [item.what, null])) };
}

function unitIs(unit, signoffs) {
  if ([...unit.counted.values()].every((entry) => entry.kind === "issue")) return "planned";
  if (!signoffs.length) return "working";
  if (signoffs.some((signoff) => signoff.review?.is === "returned")) return "returned";
  if (signoffs.some((signoff) => signoff.is === "stale")) return "stale";
  return signoffs.some((signoff) => signoff.review) ? "accepted" : "signed";
}

/** The state from what `gather` holds. */
export function result(held, packets, parts, judge = estimateJudge) {
  const all = index(held);
  const unit = view(all, inForce(all, packets), parts);
  const sheets = Object.fromEntries([...unit.sheets.keys()].map((name) => [name, sheetOf(unit, name, judge)]));
  const steps = stepsOf(unit, Object.fromEntries(Object.entries(sheets).map(([name, sheet]) => [name, sheet.verdicts])));
  const signoffs = signoffsOf(unit, packets, steps);
  const first = unit.steps.find((step, at) => isSigned(step) && !isThrough(steps[at]));
  return { fold: FOLD, is: unitIs(all, signoffs), packet: unit.plan.hash, stage: first?.stage ?? null,
    waiting: waitingOf(unit, steps, sheets, signoffs), elsewhere: unit.elsewhere, steps, sheets, signoffs };
}

/** The state of a set of entries. */
export const fold = (entries, packets, parts, judge = estimateJudge) => result(gather(null, entries), packets, parts, judge);

// What follows takes the packet in use itself.
const indexOf = (entries) => index(gather(null, entries));
const under = (entries, packet, parts) => view(indexOf(entries), { hash: null, packet, issued: new Map() }, parts);

/** What is given to the packet's sheet of this name; null: no such sheet, not at hand, or split. */
export const given = (entries, packet, parts, name) => fed(under(entries, packet, parts), name);

/** {present: the round that readings belong to now (null: the opening), heads: what a new round names in `after`}. */
export function roundNow(entries, name) {
  const { heads } = roundsOf(indexOf(entries), name);
  return { present: heads.length === 1 ? heads[0] : null, heads: heads.filter((head) => head !== null) };
}

/** Ids, rising, that a sign-off made now covers. */
export const signoffCovers = (entries, packet) => covered(indexOf(entries), packet);

/** Ids, rising, of the step's standing entries: what a release of it or an `ask` covers. */
export const stepStanding = (entries, packet, step) => indexOf(entries).onStep(step).map((entry) => entry.id);

/** What may be signed, released, asked for or confirmed now by `person`; see fieldapp/record/offers.py. */
export const offered = (entries, packet, parts, state, person = null) => offers(under(entries, packet, parts), state, person);
