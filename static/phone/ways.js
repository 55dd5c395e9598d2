// A direction is a word and an arrow, never a bare sign: which words a signed reading or answer takes.
import { feedOf } from "./look.js";
import { say } from "./words.js";

// − then +, as words.md has the signs
const JAMB = [["left", "top_left"], ["right", "top_right"]];
const LEAN = [["in", "top_in"], ["out", "top_out"]];
const LEVEL = [["up-left", "left_high"], ["up-right", "right_high"]];
const SIDE = [["left", "left"], ["right", "right"]];
const WAYS = {
  plumb_left: JAMB, plumb_right: JAMB, lean_left: LEAN, lean_right: LEAN, lean: LEAN, level_sill: LEVEL, level_head: LEVEL,
  string_gap: [["up-left", "string_left"], ["up-right", "string_right"]], "tilt.along": LEVEL, "tilt.through": LEAN,
  square_head: SIDE, square_sill: SIDE, twist: [["out", "left_out"], ["out", "right_out"]], align_mid: [["up", "narrow"], ["down", "wide"]],
};
const LOW_HIGH = [["down", "lower"], ["up", "higher"]];

/** The two ways of a field that may be negative: [{arrow, word}, {arrow, word}] for − and +, in the plan's own words
 *  where it has some, `key` the short ones for the pad; null when it has no sign. */
export function waysOf(field) {
  const pair = WAYS[feedOf(field)?.as] ?? WAYS[field.id] ?? (field.type === "length" && (field.ways || field.key === "signed" || field.expect?.from < 0) ? LOW_HIGH : null);
  if (!pair) return null;
  const own = field.ways && [field.ways.minus, field.ways.plus];
  return pair.map(([arrow, word], i) => ({ arrow, word: own?.[i] ?? say(`way.${word}`), key: say(`way.${word}`) }));
}

/** The way a judged quantity stands, by its sign: {arrow, word}, or null. */
export function wayOf(what, value) {
  const pair = WAYS[what];
  if (!pair || !value) return null;
  const [arrow, word] = pair[value < 0 ? 0 : 1];
  return { arrow, word: say(`way.${word}`) };
}

const isTilt = (feed) => Boolean(feed?.as.startsWith("tilt."));

/** Whether a level kind is read over one's own level, whose length the phone was not told yet (0: a plumb line, over the
 *  whole side). The box's tilt is read over a rail, which each of its readings names. */
export const levelUntold = (ctx, { level, feed }) => Boolean(level) && !isTilt(feed) && (ctx.settings.level ?? null) === null;

/** The length that a level kind is read over, nm, or null for the full side; `own`: what was typed for this reading. */
export function levelOf(ctx, { field, reading, feed, sheet }, own = null) {
  const [from, to] = reading ? [reading.over_from, reading.over_to] : sheet?.limits?.tilt_over ?? [];
  const allowed = (over) => over && over >= (from ?? 0) * 1e6 && over <= (to ?? Infinity) * 1e6;
  return [isTilt(feed) ? own : ctx.settings.level, field.over].find(allowed) ?? null;
}

/** Whether a reading is taken over less than its side: over one's own level, or the length typed for it. */
export const ownOver = (ctx, about, own = null) => isTilt(about.feed) || (Boolean(ctx.settings.level) && levelOf(ctx, about) === ctx.settings.level);
