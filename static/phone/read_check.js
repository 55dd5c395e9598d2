// What a typed figure may have been meant as, and which kept ones were asked about. Pad text in, one of
// {nm|number, text} kept as it is, {fault: sentence}, {ask: [{text, nm}], …} two readings to choose from.
import { LengthError, read } from "./lengths.js";
import { withUnit } from "./pad_keys.js";
import { feedOf, standing } from "./look.js";
import { waysOf } from "./ways.js";
import { say } from "./words.js";

const NM = 1e6;
const NEAR = 0.1;   // a candidate this near the plan is what was meant
const FAR = 0.5;    // a figure further off than this is asked back
const FLOOR = 10e6; // but nobody is asked about a gap that is a finger's width off: such gaps are found
const OFFSET = 150e6;  // an offset from a level or a string above this is asked back: half a foot and more

const other = (unit) => (unit === "in" ? "mm" : "in");

function tryRead(text) {
  try { return read(text); } catch { return null; }
}

// The same digits in the other unit, and ten times more or less, where one of them is near what is expected.
function meant(bare, unit, plan, signed) {
  const near = (nm) => nm !== null && (signed ? Math.abs(nm) <= OFFSET : Math.abs(Math.abs(nm) - plan) <= NEAR * plan);
  const swapped = `${bare} ${other(unit)}`;
  if (near(tryRead(swapped))) return swapped;
  const figure = Number(bare);
  if (signed || bare.startsWith("-") || !Number.isFinite(figure)) return null;
  return [`${figure / 10} ${unit}`, `${figure * 10} ${unit}`].find((text) => near(tryRead(text))) ?? null;
}

const MINUS = /^\s*[-\u2212]\s*/;

// The other reading, where there is one, and always the figure as it was typed.
const asked = (text, nm, better) => ({ ask: [...(better ? [{ text: better, nm: tryRead(better) }] : []), { text, nm, asTyped: true }], text });

/** The two halves of a fraction that has no denominator yet, [whole, top], or null; `face` as in pad_keys.js. */
export function unfinished({ text, face = 1 }) {
  const bare = text.replace(/^\s*[+-]/, "").trimStart();
  if (!bare.trim() || bare.includes("/")) return null;
  const found = /^(?:(.*\S) +)?(\d*)$/.exec(bare);
  return found && (face === 2 || (found[1] && !/ft$/.test(found[1]) && found[2].length < 3)) ? [found[1] ?? "", found[2]] : null;
}

const beyond = (x, range) => Boolean(range) && ((range.from !== null && x < range.from) || (range.to !== null && x > range.to));

/** {out, far} of a length in nm under `limits`: out of its range; nowhere near its plan, or an offset of feet. */
export function oddities(nm, { plan = null, signed = false, range = null, within = null } = {}) {
  const allowed = within && nm >= (within.from ?? -Infinity) && nm <= (within.to ?? Infinity);
  return { allowed, out: beyond(nm / NM, range), far: signed ? Math.abs(nm) > OFFSET : plan > 0 && !allowed && Math.abs(nm - plan) > FAR * plan };
}

/** Whether a kept value {nm} or {number} is one that was asked about and kept as typed. */
export function keptFar({ nm, number }, about) {
  const { out, far } = nm === undefined ? { out: beyond(number, about.range) } : oddities(nm, about);
  return Boolean(out || (far && (about.signed || Math.abs(nm - about.plan) > FLOOR)));
}

/**
 * A typed length: `plan` in nm or null, `signed` for offsets (plan 0), `unit` "in" or "mm", range {from, to} in mm or
 * null, `within` {from, to} in nm: what the plan allows, never far. One that is far or out of range is always asked
 * about, and a minus where no sign belongs too (`minus`: true).
 */
export function checkLength(typed, unit, { plan = null, signed = false, range = null, within = null } = {}) {
  const text = withUnit(typed, unit);
  let nm;
  try {
    nm = read(text);
  } catch (fault) {
    if (!(fault instanceof LengthError)) throw fault;
    return fault.readings?.length ? { ask: fault.readings.map((r) => ({ text: r, nm: tryRead(r) })), text } : { fault: fault.message, text };
  }
  const { out, far, allowed } = oddities(nm, { plan, signed, range, within });
  if (!signed && nm < 0 && MINUS.test(text) && !allowed) return { ...asked(text, nm, text.replace(MINUS, "")), minus: true };
  const bare = text.replace(/\s*(in|mm)$/, "");
  const better = (far || out) && meant(bare, unit, plan, signed);
  const ask = better || out || (far && (signed || Math.abs(nm - plan) > FLOOR));
  return { ...(ask ? asked(text, nm, better) : { text, nm }), far: Boolean(far), out: Boolean(out) };
}

/** A typed number: digits with one point or comma; `minus`: may be below nought; `range` {from, to} or null: outside it is asked about. */
export function checkNumber(typed, { minus = true, range = null } = {}) {
  const text = typed.trim().replace(/^\+/, "");
  const plain = text.replace(",", ".");
  const number = Number(plain);
  if (!plain || !Number.isFinite(number) || plain.replace(/\D/g, "").length > 15) return { fault: "" };
  const kept = { text, number, asTyped: true };
  if (number < 0 && !minus) return { text, minus: true, ask: [{ text: text.replace(MINUS, ""), number: -number }, kept] };
  return beyond(number, range) ? { text, out: true, ask: [kept] } : { text, number };
}

/** Two readings of a level turned end for end, as one value: both texts, their mean a half away from zero. */
export function turned(first, second) {
  const sum = first.nm + second.nm;
  return { text: `${first.text}; ${second.text}`, nm: Math.sign(sum) * Math.floor((Math.abs(sum) + 1) / 2), reversed: true };
}

/** The plan of a field, nm or a number: its own, else the middle of what is expected; one-sided limits have no middle. */
export function planOf({ plan, expect }) {
  if (plan !== undefined && plan !== null) return plan;
  const { from = null, to = null } = expect ?? {};
  return from === null || to === null ? null : (from + to) / 2;
}

/** What a figure is checked against: {plan, signed, within, range}. */
export function limits({ field, reading }, ways) {
  return { plan: ways ? null : planOf(field), signed: Boolean(ways), within: field.expect ?? null, range: reading ? { from: reading.from ?? null, to: reading.to ?? null } : null };
}

/** Whether a field without directions may be below nought. */
export const mayBeMinus = (field) => field.key === "signed" || field.ucum === "Cel" || field.expect?.from < 0;

/** The sentence for a fraction without its denominator: "86 and 11 what? …". */
export const denMissing = (halves) => say("den_missing", { x: halves[0] && halves[1] ? say("whole_and", { a: halves[0], b: halves[1] }) : halves[1] || say("whole_and", { a: halves[0], b: "" }).trim() });

/** What a field feeds first: {feed, sheet, reading}, `reading` what that sheet knows of it. */
export function fedBy(ctx, field) {
  const feed = feedOf(field);
  const sheet = feed && ctx.sheet(feed.sheet);
  return { feed, sheet, reading: sheet?.kind === "linear" ? sheet.readings?.[feed.as] : sheet?.inputs?.find((input) => input.name === feed?.as) };
}

/** The standing readings of a field that are far from its plan or out of its range and were kept as typed all the same. */
export function farOff(ctx, step, field) {
  if (!["length", "number"].includes(field.type)) return [];
  const about = limits({ field, ...fedBy(ctx, field) }, waysOf(field));
  return standing(ctx, step.id, field.id).filter((entry) => entry.kind === "reading" && keptFar(entry.value, about));
}
