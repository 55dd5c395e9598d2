// A unit seen through a plan: fields with what stands on them, sheets with their rounds. Twin of fieldapp/record/view.py.
import { isValue, suits } from "./fold_entries.js";
import { ALONE, roundsOf } from "./fold_rounds.js";
import { place, push } from "./fold_standing.js";

/** Only a sheet with corrections has rounds. */
const hasRounds = (sheet) => sheet.kind === "linear" && (sheet.corrections ?? []).length > 0;

const roundOf = (entry) => entry.round ?? null;

/** The values of these rounds, by id. */
export function ofRounds(field, rounds) {
  const wanted = new Set(rounds);
  return field.values.filter((entry) => wanted.has(roundOf(entry)));
}

/** What stands for the field now: of the present round where it repeats, else of the newest that has a value; in a split, of each. */
function now(field) {
  if (field.rounds === ALONE) return field.values;
  if (field.known.repeat || field.rounds.split.length) return ofRounds(field, field.rounds.heads);
  const newest = [...field.rounds.chain].reverse().find((round) => field.byRound.has(round));
  return newest === undefined ? [] : field.byRound.get(newest);
}

function fieldOf(unit, step, known, rounds) {
  const here = unit.at(step, known.id);
  const values = here.filter((entry) => suits(entry, known));
  const feed = (known.feeds ?? []).find((each) => rounds.has(each.sheet));
  const field = { step, known, values, byRound: new Map(), rounds: rounds.get(feed?.sheet) ?? ALONE };
  for (const entry of values) push(field.byRound, roundOf(entry), entry);
  const marked = [...values, ...here.filter((entry) => entry.kind === "retract")].map(roundOf);
  field.pair = !known.repeat && new Set(marked).size < marked.length;
  field.now = now(field);
  return field;
}

// Standing entries on a step or field that the packet lacks, and values of a kind that does not suit the field.
function elsewhere(unit, steps, fields) {
  const lost = (entry) => {
    if (entry.step === undefined && entry.field === undefined) return false;
    const field = fields.get(place(entry.step, entry.field));
    if (!steps.has(entry.step) || (entry.field !== undefined && !field)) return true;
    return field !== undefined && isValue(entry) && !suits(entry, field.known);
  };
  return unit.standing.filter(lost).map((entry) => entry.id);
}

/** The view of an index under a plan: {index, plan, steps, sheets, rounds, fields, feeders, elsewhere}. */
export function view(unit, plan, parts) {
  const steps = plan.packet.steps ?? [];
  const sheets = new Map((plan.packet.sheets ?? []).map((item) => [item.name, parts[item.part] ?? {}]));
  const rounds = new Map([...sheets].filter(([, sheet]) => hasRounds(sheet)).map(([name]) => [name, roundsOf(unit, name)]));
  const fields = new Map();
  for (const step of steps) {
    for (const known of step.fields ?? []) fields.set(place(step.id, known.id), fieldOf(unit, step.id, known, rounds));
  }
  const feeders = new Map([...sheets.keys()].map((name) => [name, []]));
  for (const field of fields.values()) {
    for (const feed of field.known.feeds ?? []) feeders.get(feed.sheet)?.push({ field, path: feed.as });
  }
  return { index: unit, plan, steps, sheets, rounds, fields, feeders,
    elsewhere: elsewhere(unit, new Set(steps.map((step) => step.id)), fields) };
}
