// Answers of sheets for the screens, and `told`: the answer that was shown, kept as an entry beside what was done by it.
import { answer } from "./estimate.js";
import { given, roundNow } from "./fold.js";
import { byId, feedOf } from "./look.js";

const kept = new WeakMap();

/**
 * A sheet's answer over what stands now: {sheet, given, answer}; null when the sheet is not here or its rounds are
 * split. Made once for a list of entries. `before`: as it was before the moves of the present round, so that a list of moves stays as it was told.
 */
export function answerOf(ctx, name, before = false) {
  const sheet = ctx.sheet(name);
  if (!sheet) return null;
  if (!kept.has(ctx.entries)) kept.set(ctx.entries, new Map());
  const made = kept.get(ctx.entries);
  const key = JSON.stringify([name, before, ctx.settings.show, ctx.settings.tools, canRead(ctx)]);
  if (!made.has(key)) {
    const done = new Set(before ? movesMade(ctx, name) : []);
    const entries = done.size ? ctx.entries.filter((e) => !done.has(e)) : ctx.entries;
    const now = given(entries, ctx.packet, ctx.parts, name);
    if (!now) return made.set(key, null).get(key);
    const fed = { ...now, show: ctx.settings.show };
    if (sheet.kind === "linear") Object.assign(fed, canRead(ctx) && { can_read: canRead(ctx) }, ctx.settings.tools && { tools: ctx.settings.tools });
    made.set(key, { sheet, given: fed, answer: answer(sheet, fed) });
  }
  return made.get(key);
}

/** The kinds of reading this phone's person can take; null: the sheet's own list. */
export const canRead = (ctx) => (ctx.settings.can_read?.length ? ctx.settings.can_read : null);

const inNm = (mm) => Math.round(mm * 1e6);

// the ids of the readings that an answer set aside, by their place in what was given
const asideIds = (fed, answered) => (answered.suspects ?? []).map((s) => fed.rounds?.[s.round]?.readings?.[s.reading]?.id).filter(Boolean);

/** Verdicts of an answer by name. */
export const verdictsOf = (answered) => Object.fromEntries((answered.judged ?? [{ what: "verdict", verdict: answered.verdict }])
  .filter((j) => j.verdict).map((j) => [j.what, j.verdict]));

/** The value of `told` for what a sheet answers now, or null when nothing was fed to it. */
export function toldValue(ctx, name, chosen = null) {
  const made = answerOf(ctx, name, true);
  const from = made?.given.ids ?? [];
  if (!from.length) return null;
  const { answer: a, given: fed, sheet } = made;
  return {
    sheet: name, from, verdicts: verdictsOf(a), set_aside: asideIds(fed, a).sort(),
    moves: (a.corrections ?? []).map((c) => ({ do: c.do, nm: inNm(c.by) })), next: a.next?.of ?? null, chosen: chosen ?? a.row ?? null,
    tools: ctx.settings.tools ?? sheet.tools ?? null, can_read: canRead(ctx) ?? sheet.can_read ?? [],
  };
}

/** `told` entries for the answers of `names` that were not told as they are now. */
export function tell(ctx, names, step, { round = {}, chosen = null } = {}) {
  return [...new Set(names)].flatMap((name) => {
    const value = toldValue(ctx, name, chosen);
    const last = ctx.entries.findLast((e) => e.kind === "told" && e.value.sheet === name);
    if (!value || (last && JSON.stringify(last.value) === JSON.stringify(value))) return [];
    return [ctx.make("told", value, { step, round: round[name] ?? null, sheet: name })];
  });
}

/** The sheets that a step answers or that one of its fields feeds. */
export const sheetsOf = (step) => [...new Set([...(step.answers ?? []).map((a) => a.sheet), ...step.fields.flatMap((f) => (f.feeds ?? []).map((feed) => feed.sheet))])];

const hasRounds = (sheet) => sheet?.kind === "linear" && sheet.corrections?.length > 0;

/** The round that readings and moves of a sheet with corrections belong to now: an entry's id, or null for the opening. */
export const roundOf = (ctx, name) => (hasRounds(ctx.sheet(name)) ? roundNow(ctx.entries, name).present : null);

/** Opens the next round, which follows every round of the sheet that had no follower here, and what to read in it; a
 *  round in which nothing was read yet serves as it is. */
export async function openRound(ctx, name, step) {
  const fresh = answerOf(ctx, name)?.given.rounds?.at(-1)?.readings.length === 0 && !movesMade(ctx, name).length;
  const after = roundNow(ctx.entries, name).heads;
  if (fresh || await ctx.keep([ctx.make("round", { sheet: name, after }, { step: step.id, sheet: name })])) ctx.go(`#unit/${ctx.unit.id}/readings/${name}`);
}

/** The round of a field's new entry: that of the sheet with corrections it feeds, else null. */
export const roundOfField = (ctx, field) => (feedOf(field) ? (field.feeds.map((f) => roundOf(ctx, f.sheet)).find(Boolean) ?? null) : null);

/** The moves already made in the present round of a sheet, oldest first. */
export function movesMade(ctx, name) {
  const round = roundOf(ctx, name);
  const gone = new Set(ctx.entries.flatMap((e) => e.replaces ?? []));
  return [...byId(ctx.entries).values()].filter((e) => e.kind === "move" && e.value.sheet === name && (e.round ?? null) === round && !gone.has(e.id));
}
