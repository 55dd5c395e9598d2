// The fold: a unit's state as a pure function of the set of its entries (state.md). Twin of fieldapp/record/fold.py.
//
// entries: wire entries, sent and unsent, in any order; packets, parts: {hash: plain object}, all packets issued on the
// unit that are here and the sheets of the one in force.
import { judge as estimateJudge } from "./estimate.js";
import { canonical, FOLD, gather } from "./fold_entries.js";
import { fed } from "./fold_feeds.js";
import { offers } from "./fold_offers.js";
import { covered, isThrough, signoffsOf, waitingOf } from "./fold_signoffs.js";
import { index, isSigned } from "./fold_standing.js";
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

function resultOf(unit, packets, judge) {
  const sheets = Object.fromEntries([...unit.sheets.keys()].map((name) => [name, sheetOf(unit, name, judge)]));
  const steps = stepsOf(unit, Object.fromEntries(Object.entries(sheets).map(([name, sheet]) => [name, sheet.verdicts])));
  const signoffs = signoffsOf(unit, packets, steps);
  const first = unit.steps.find((step, at) => isSigned(step) && !isThrough(steps[at]));
  return { fold: FOLD, is: unitIs(unit.index, signoffs), packet: unit.plan.hash, stage: first?.stage ?? null,
    waiting: waitingOf(unit, steps, sheets, signoffs), elsewhere: unit.elsewhere, steps, sheets, signoffs };
}

/** The state from what `gather` holds. */
export const result = (held, packets, parts, judge = estimateJudge) => resultOf(view(held, packets, parts), packets, judge);

/** The state of a set of entries. */
export const fold = (entries, packets, parts, judge = estimateJudge) => result(gather(null, entries), packets, parts, judge);

/** What is given to the sheet `name` of the packet in force; null: no such sheet, not at hand, or split. */
export const given = (entries, packets, parts, name) => fed(view(gather(null, entries), packets, parts), name);

/** Ids, rising, that a sign-off made now covers; packet: the one in force. */
export const signoffCovers = (entries, packet) => covered(index(gather(null, entries)), packet);

/** Ids, rising, of the step's standing entries: what a release of it or an `ask` covers. */
export const stepStanding = (entries, packet, step) => index(gather(null, entries)).onStep(step).map((entry) => entry.id);

/** What may be signed, released, asked for or confirmed now by `person`; see fieldapp/record/offers.py. */
export const offered = (entries, packets, parts, state, person = null) =>
  offers(view(gather(null, entries), packets, parts), state, person);
