// Looking things up for the screens: plain questions to `ctx` (app.js), nothing kept here.
import { say } from "./words.js";

/** A step or a field of the packet; null when the plan has none of that name. */
export const stepOf = (ctx, id) => ctx.packet?.steps.find((step) => step.id === id) ?? null;
export const fieldOf = (step, id) => step?.fields.find((field) => field.id === id) ?? null;

/** What the fold says of a step. */
export const stepState = (ctx, id) => ctx.state?.steps.find((step) => step.id === id) ?? { is: "open", missing: [], pairs: [], outside: [], unsettled: [], hold: null, values: {} };

const indexes = new WeakMap();
/** id → entry, made once for a list of entries. */
export function byId(entries) {
  if (!indexes.has(entries)) indexes.set(entries, new Map(entries.map((entry) => [entry.id, entry])));
  return indexes.get(entries);
}

/** The standing entries of a field that the fold counts, oldest id first. */
export const standing = (ctx, step, field) => (stepState(ctx, step).values[field] ?? []).map((id) => byId(ctx.entries).get(id)).filter(Boolean);

/** Every entry ever made on a step's field here, oldest first. */
export const history = (ctx, step, field) => ctx.entries.filter((e) => e.step === step && e.field === field);

/** Ids that some entry here replaces. */
export const replacedIds = (ctx) => new Set(ctx.entries.flatMap((e) => e.replaces ?? []));

/** Standing entries of a kind on a step (asks, releases, notes), oldest first. */
export function standingKind(ctx, kind, step) {
  const gone = replacedIds(ctx);
  return ctx.entries.filter((e) => e.kind === kind && e.step === step && !gone.has(e.id));
}

/** The sheet's name for a field's reading, and which sheet: {sheet, as}; null when it feeds none. */
export const feedOf = (field, sheet) => field?.feeds?.find((feed) => !sheet || feed.sheet === sheet) ?? null;

/** Where the plan has the field that feeds `as` of a sheet: {step, field}, or null; the step `near` is asked first. */
export function feeding(ctx, sheet, as, near = null) {
  for (const step of near ? [near, ...ctx.packet.steps] : ctx.packet.steps) {
    const field = step.fields.find((f) => f.feeds?.some((feed) => feed.sheet === sheet && feed.as === as));
    if (field) return { step, field };
  }
  return null;
}

/** Stages in order with their steps, the re-check last and by itself. */
export function stages(ctx) {
  const made = [];
  for (const step of ctx.packet.steps) {
    if (made.at(-1)?.id !== step.stage) made.push({ id: step.stage, say: stageSay(ctx, step.stage), steps: [] });
    made.at(-1).steps.push(step);
  }
  return made;
}

/** A stage's name: the packet's, else its id in words. */
export const stageSay = (ctx, id) => ctx.packet.stages?.find((stage) => stage.id === id)?.say ?? id[0].toUpperCase() + id.slice(1).replace(/-/g, " ");

/** A step's place in its stage: {n, of, stage}. */
export function placeOf(ctx, step) {
  const steps = ctx.packet.steps.filter((s) => s.stage === step.stage);
  return { n: steps.indexOf(step) + 1, of: steps.length, stage: stageSay(ctx, step.stage) };
}

/** The first hold point without a good release: no step past it is opened. Null: none. */
export const barrier = (ctx) => ctx.packet.steps.find((step) => step.hold && step.signed !== false && !stepState(ctx, step.id).hold) ?? null;

/** Whether the phone opens a step: those of the re-check always, others up to the barrier. */
export function opens(ctx, step) {
  const shut = barrier(ctx);
  return !shut || step.signed === false || ctx.packet.steps.indexOf(step) <= ctx.packet.steps.indexOf(shut);
}

const touched = (ctx, step) => Object.keys(stepState(ctx, step.id).values).length > 0;

/** A step that asks nothing that must be answered, judges nothing and was not touched: the state calls it done, nobody has. */
export const untouched = (ctx, step) => step.fields.length > 0 && !step.hold && !step.answers?.length && !step.fields.some((field) => field.required) && !touched(ctx, step);

// Whether a concession is still wanting on a step: one that passed or was put right needs none.
const wantsOne = (ctx, step) => ["outside", "open"].includes(stepState(ctx, step.id).is);

/** The office's no to the concession asked for on a step, as its note; null while it has not answered, was asked again
 *  since or granted one after all, and where it was put right. */
export function notGranted(ctx, step) {
  const ask = wantsOne(ctx, step) ? standingKind(ctx, "ask", step.id).at(-1) : null;
  return ask ? standingKind(ctx, "note", step.id).findLast((e) => e.id > ask.id && e.person !== ask.person && e.value.text.startsWith("Not granted: ")) ?? null : null;
}

/** A step that waits for nothing more here: done or passed, or the office was asked for a concession and has not said no. One that may stay
 *  untouched is stopped at once, until the work is past it. */
export function finished(ctx, step) {
  if (step.hold && !stepState(ctx, step.id).hold) return false;
  if (wantsOne(ctx, step)) return !step.hold && standingKind(ctx, "ask", step.id).length > 0 && !notGranted(ctx, step);
  return !untouched(ctx, step) || ctx.packet.steps.slice(ctx.packet.steps.indexOf(step) + 1).some((later) => later.signed !== false && touched(ctx, later));
}

/** The one answer to "what next": the first step that is not finished, or null when only signing is left. */
export const present = (ctx) => ctx.packet.steps.find((step) => step.signed !== false && !finished(ctx, step)) ?? null;

/** A hold point whose own answer is not what lets anybody release it (the leaf catches): no second look helps there. */
export const refused = (ctx, step) => Boolean(step.hold) && !step.concession && stepState(ctx, step.id).outside.length > 0;

/** The sheet with corrections that a step answers, by its name; null: none. */
export const frameOf = (ctx, step) => step.answers?.find((a) => ctx.sheet(a.sheet)?.corrections?.length)?.sheet ?? null;

/** Where a step's work is: its own screen, or the hold point when only the release is wanting. */
export function hashOf(ctx, step) {
  const { is, hold } = stepState(ctx, step.id);
  const second = step.hold && !hold && (is === "shut" || is === "outside") && !refused(ctx, step);
  return `#unit/${ctx.unit.id}/${second ? "hold" : "step"}/${step.id}`;
}

const words = (text) => ` ${text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ").trim()} `;

// What a reason may call a step: by its own name, what it judges, or a field's name of two words or more ("left" is no field's).
const namesOf = (ctx, step) => [step.say, ...(step.answers ?? []).flatMap(({ sheet, judged }) => (ctx.sheet(sheet)?.judged ?? []).filter((item) => judged.includes(item.what)).map((item) => item.say)),
  ...step.fields.flatMap((field) => [field.say, field.short]).filter((name) => name?.includes(" "))].filter(Boolean);

/** The sign-off that was returned and nothing is new since: {step} that the reason names, or {step: null}; null otherwise. */
export function returned(ctx) {
  const signoff = ctx.state.signoffs.find((one) => one.review?.is === "returned" && one.is !== "stale");
  if (!signoff) return null;
  const why = words(byId(ctx.entries).get(signoff.review.id)?.value.because ?? "");
  const named = ctx.packet.steps.filter((step) => step.signed !== false)
    .flatMap((step) => namesOf(ctx, step).map(words).filter((name) => why.includes(name)).map((name) => ({ step, length: name.length })));
  return { step: named.sort((a, b) => b.length - a.length)[0]?.step ?? null };
}

/** The main action that goes on with the work, the same on every screen: {say, go}. */
export function goOn(ctx, step = present(ctx) ?? returned(ctx)?.step) {
  if (!step && returned(ctx)) return { say: say("see_return"), go: `#unit/${ctx.unit.id}/sign` };
  if (!step) return { say: say("sign"), go: `#unit/${ctx.unit.id}/sign` };
  const go = hashOf(ctx, step);
  return { say: say(go.includes("/hold/") ? "to_hold" : "go_on", { say: step.say }), go };
}

/** A person's name from the packet, else the signed-in one's, else the id's first letters. */
export const personName = (ctx, id) => (id === ctx.person.id ? ctx.person.name : ctx.packet?.people.find((p) => p.id === id)?.name) ?? id.slice(0, 8);

const sameDay = (a, b) => a.toDateString() === b.toDateString();
/** 10:42, or 24 Nov 10:42 when it was not today. */
export function timeOf(at) {
  const date = new Date(at);
  const clock = `${String(date.getHours()).padStart(2, "0")}:${String(date.getMinutes()).padStart(2, "0")}`;
  if (sameDay(date, new Date())) return clock;
  return `${date.getDate()} ${date.toLocaleDateString("en", { month: "short" })} ${clock}`;
}

/** A list in words. */
export const list = (words) => words.join(", ");

/** What a screen shows when the plan is not here, or has nothing under that address. */
export const noPlan = (ctx) => ({ title: say("unit", { n: ctx.unit?.number ?? "" }), main: [say(ctx.packet ? "not_in_plan" : "no_packet")],
  left: { say: say("other_unit"), go: "#open" }, action: ctx.packet ? { say: say("unit_back"), go: `#unit/${ctx.unit.id}` } : { say: say("units"), go: "#open" } });

/** The words for a kind of reading: its field's, else the sheet's. */
export const kindSay = (ctx, sheet, kind) => { const field = feeding(ctx, sheet.name, kind)?.field; return field?.short ?? field?.say ?? sheet.readings[kind]?.say ?? kind; };
