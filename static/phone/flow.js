// What comes next in a step, and taking back what was just kept.
import { feedOf, frameOf, byId, refused, replacedIds, stepState } from "./look.js";
import { roundOf } from "./answers.js";
import { say } from "./words.js";

const BACK_FOR_MS = 10_000;
let recent = null;
let timer = 0;

/** The fields a phone shows: it takes no pictures yet. */
export const shown = (step) => step.fields.filter((field) => field.type !== "photo");

/** The next field of a step that waits for a value, past the ids in `but`; null when none does. */
export function nextField(ctx, step, but = []) {
  const missing = new Set(stepState(ctx, step.id).missing);
  return shown(step).find((field) => missing.has(field.id) && !but.includes(field.id)) ?? null;
}

/** Whether a field has its own screen (the others are answered on the step itself). */
export const hasScreen = (field) => !["tick", "choice"].includes(field.type);

/** Address of a field's screen; `from` is where it leads back to: "step" or "frame". */
export const readHash = (ctx, step, field, from = "step") => `#unit/${ctx.unit.id}/read/${step.id}/${field.id}${from === "frame" ? "/frame" : ""}`;

/** What mends a hold point whose own answer is against it: {frame}: that sheet is to be read again, or, once a round
 *  was opened since, {field}: to be answered anew. Null where the hold point is not refused. */
export function refusal(ctx, step) {
  if (!refused(ctx, step)) return null;
  const { outside, values } = stepState(ctx, step.id);
  const [frame, field] = [frameOf(ctx, step), shown(step).find((one) => outside.includes(one.id))];
  const said = outside.flatMap((id) => values[id] ?? []).sort().at(-1) ?? "";
  const again = ctx.entries.some((e) => e.kind === "round" && e.value.sheet === frame && e.id > said);
  return frame && !(again && field) ? { frame } : { field };
}

const MOST_LETTERS = 34;
/** A name inside a sentence: without its capital. */
export const lower = (text) => (/^[A-Z][a-z]/.test(text) ? text[0].toLowerCase() + text.slice(1) : text);
const NAMED = { read: ["read", "read_long"], write: ["write", "write_long"], tick: ["tick_next", "tick_long"], choice: ["choose_next", "choose_long"], keep: ["keep_next", "keep_long"] };

/** A key's words that name a field: with its whole name, else with what stands before the first comma, else without it. */
export function naming(what, field) {
  const [with_, without] = NAMED[what];
  const whole = lower(field.short ?? field.say);
  const first = whole.split(",")[0];
  const texts = [whole, ...(what === "read" || what === "keep" ? [first] : [])].map((name) => say(with_, { say: name }));
  return texts.find((text) => text.length <= MOST_LETTERS) ?? say(without);
}

/** What a key does with a field, for `naming`. */
export const doing = (field) => (hasScreen(field) ? (["text", "date"].includes(field.type) ? "write" : "read") : field.type);

/** Remembers what was just kept, so that the next screen can take it back. */
export function justKept(entries) {
  recent = { ids: entries.map((e) => e.id), at: Date.now() };
}

/** The left key for ten seconds after a reading was kept: a retract; after that `usual`. */
export function leftKey(ctx, usual) {
  const age = recent ? Date.now() - recent.at : Infinity;
  const entry = recent && byId(ctx.entries).get(recent.ids[0]);
  clearTimeout(timer);
  if (age >= BACK_FOR_MS || !entry || entry.unit !== ctx.unit.id || replacedIds(ctx).has(entry.id)) return usual;
  const here = location.hash;
  timer = setTimeout(() => { if (location.hash === here) ctx.again(); }, BACK_FOR_MS - age);
  return { say: say("take_back"), back: usual?.go ?? usual?.back, do: () => takeBack(ctx, entry, say("taken_back")) };
}

/** Forgets the timer of `leftKey` when its screen is left. */
export const shut = () => clearTimeout(timer);

/** Takes an entry back by a `retract`, on the same step, field and round; true when that is on disk. */
export async function takeBack(ctx, entry, because) {
  const where = { step: entry.step, field: entry.field, round: entry.round, replaces: [entry.id] };
  recent = null;
  if (!await ctx.keep([ctx.make("retract", { because }, where)])) return false;
  ctx.again();
  return true;
}

const lastSteps = new Map();
/** Remembers the step that was open last on a unit, to which answers lead back. */
export const visit = (ctx, step) => lastSteps.set(ctx.unit.id, step.id);

/** The step that a sheet's screens belong to: the one open last if it rests on the sheet, else the first unfinished one
 *  that answers it, else the first that does or that feeds it. */
export function homeStep(ctx, sheet) {
  const answering = ctx.packet.steps.filter((step) => step.answers?.some((a) => a.sheet === sheet));
  const feeds = ctx.packet.steps.filter((step) => step.fields.some((f) => feedOf(f, sheet)));
  const last = [...answering, ...feeds].find((step) => step.id === lastSteps.get(ctx.unit.id));
  return last ?? answering.find((step) => !["done", "passed"].includes(stepState(ctx, step.id).is)) ?? answering[0] ?? feeds[0] ?? ctx.packet.steps[0];
}

/** What a new entry in a field replaces: all that stands there in the same round; in a `repeat` field
 *  nothing but what the office refused. */
export function replacing(ctx, step, field, round) {
  const refused = ctx.refused.map(({ entry }) => entry).filter((e) => e.step === step.id && e.field === field.id && (e.round ?? null) === round);
  const gone = replacedIds(ctx);
  const stand = field.repeat ? [] : ctx.entries.filter((e) => e.step === step.id && e.field === field.id && (e.round ?? null) === round && !gone.has(e.id));
  return [...refused, ...stand].map((e) => e.id).sort();
}

/** The other diagonal of the frame while it is unread in this round, as {step, field}; else null. */
export function otherDiagonal(ctx, step, field) {
  const feed = feedOf(field);
  if (!feed?.as.startsWith("diagonal_")) return null;
  const round = roundOf(ctx, feed.sheet);
  const other = step.fields.find((f) => f !== field && feedOf(f, feed.sheet)?.as.startsWith("diagonal_"));
  const read = other && (stepState(ctx, step.id).values[other.id] ?? []).some((id) => (byId(ctx.entries).get(id)?.round ?? null) === round);
  return other && !read ? { step, field: other } : null;
}
