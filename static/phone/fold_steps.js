// Fields judged by themselves, and steps. Twin of fieldapp/record/values.py and steps.py.
import { chanceInside, INSIDE, NOT_KNOWN, OUTSIDE, TOO_CLOSE, verdict } from "./chance.js";
import { concessionHolds, goodReleases, standingOf } from "./fold_holds.js";
import { place } from "./fold_standing.js";

// Each reading against what the field expects. `expect` speaks of a level's full side (mm), as a reading without `over` does.
function reading({ value }, expect, side) {
  const times = side !== undefined && value.over ? side * 1e6 / value.over : 1;
  const u = value.u ?? expect.u ?? 0;
  return verdict(chanceInside((value.nm ?? value.number) * times, u * times, expect.from ?? null, expect.to ?? null));
}

function one(entry, known, side) {
  if (entry.kind === "reading") return known.expect ? reading(entry, known.expect, side) : INSIDE;
  if (entry.kind === "tick") return entry.value?.ticked || known.feeds?.length ? INSIDE : OUTSIDE;
  const wrong = entry.kind === "choice"
    && (known.options ?? []).some((option) => option.id === entry.value?.chosen && option.ok === false);
  return wrong ? OUTSIDE : INSIDE;
}

function ownVerdict(unit, field) {
  const sides = (field.known.feeds ?? []).map((feed) => unit.sheets.get(feed.sheet)?.readings?.[feed.as]?.side);
  const side = sides.find((each) => each !== undefined);
  const words = field.now.map((entry) => one(entry, field.known, side));
  return words.includes(OUTSIDE) ? OUTSIDE : words.includes(TOO_CLOSE) ? TOO_CLOSE : INSIDE;
}

// The first that fits.
function isOf(step, made, settled, conceded) {
  const shut = step.hold && made.hold === null;
  if (conceded && !made.pairs.length && !shut) return "passed";
  if (made.missing.length || made.pairs.length || !settled) return "open";
  if (shut) return "shut";
  return made.outside.length ? "outside" : "done";
}

function stepOf(unit, step, verdicts) {
  const fields = (step.fields ?? []).map((known) => unit.fields.get(place(step.id, known.id)));
  const judged = (step.answers ?? []).flatMap((answer) => (answer.judged ?? []).map((what) =>
    [what, verdicts[answer.sheet]?.[what] ?? null]));
  const words = [...fields.map((field) => [field.known.id, ownVerdict(unit, field)]), ...judged];
  const ids = (some) => some.map((field) => field.known.id).sort();
  const names = (word) => [...new Set(words.filter(([, said]) => said === word).map(([name]) => name))].sort();
  const made = {
    id: step.id, hold: step.hold ? standingOf(goodReleases(unit.index, step.id)) : null,
    missing: ids(fields.filter((field) => field.known.required && !field.values.length)),
    pairs: ids(fields.filter((field) => field.pair)), outside: names(OUTSIDE), unsettled: names(TOO_CLOSE), values: {},
  };
  for (const field of fields) if (field.values.length) made.values[field.known.id] = field.values.map((entry) => entry.id);
  const settled = judged.every(([, word]) => word !== null && word !== NOT_KNOWN);
  return { ...made, is: isOf(step, made, settled, concessionHolds(unit.index, step)) };
}

/** The state of every step, in the packet's order; verdicts: {sheet: {what: verdict}}. */
export const stepsOf = (unit, verdicts) => unit.steps.map((step) => stepOf(unit, step, verdicts));
