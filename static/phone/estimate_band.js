// Band sheets, second half: values judged against their bands. Twin of fieldapp/trade/estimate/band.py.
import {chanceInside, NOT_KNOWN, OUTSIDE, verdict} from "./chance.js";
import {pick} from "./estimate_band_rows.js";
import {say} from "./estimate_band_say.js";
import {explain, shift} from "./estimate_band_terms.js";
import {inputs, limit, values} from "./estimate_band_values.js";

// What the item judges; undefined while that, or an input that one of its limits rests on, is missing.
function valueOf(item, read, known) {
  const needed = [item.from, item.to].flatMap(spec => spec?.least ?? []);
  return needed.every(path => path in known) ? read[item.value] : undefined;
}

function judged(item, [estimate, u], known) {
  const from = limit(item.from, known);
  const to = limit(item.to, known);
  const chance = chanceInside(estimate, u, from, to);
  return {what: item.what, estimate, u, from, to, chance_inside: chance, verdict: verdict(chance)};
}

// `not known` where the doubt is wider than the tolerance and the value is not outside.
const guarded = (word, u, half) => half !== null && u > half && word !== OUTSIDE ? NOT_KNOWN : word;

/** {what: verdict} of every judged quantity of the sheet; null where an input is missing. */
export function judge(sheet, given) {
  const known = inputs(sheet, given);
  const read = values(sheet, known);
  return Object.fromEntries(sheet.judged.map(item => {
    const value = valueOf(item, read, known);
    if (!value) return [item.what, null];
    if (item.rows) {
      const chosen = pick(sheet.rows.rows, ...value);
      return [item.what, guarded(chosen.verdict, value[1], chosen.half)];
    }
    const one = judged(item, value, known);
    const half = one.from === null || one.to === null ? null : (one.to - one.from) / 2;
    return [item.what, guarded(one.verdict, value[1], half)];
  }));
}

// A judged difference with the terms that explain it, where it is beyond its tolerance and has any.
function difference(sheet, item, one) {
  const by = one.estimate;
  const beyond = item.terms && !(one.from <= by && by <= one.to);
  const [found, left] = beyond ? explain(by, one.u, sheet.terms.of[item.terms], sheet.terms.within) : [[], by];
  return {of: item.what, by, u: one.u, verdict: one.verdict, explained_by: found, left_over: left};
}

/** The sheet's answer: judged, say, missing; row and pick, differences, trim, shift where the sheet has them. */
export function answer(sheet, given) {
  const known = inputs(sheet, given);
  const read = values(sheet, known);
  const missing = sheet.inputs.filter(item => (item.needed ?? true) && !(item.name in known)).map(item => item.name);
  const made = {judged: [], missing};
  for (const item of sheet.judged) {
    const value = valueOf(item, read, known);
    if (!value) continue;
    if (item.rows) {
      made.pick = {value: value[0], u: value[1], ...pick(sheet.rows.rows, ...value)};
      made.row = made.pick.row;
      continue;
    }
    const one = judged(item, value, known);
    made.judged.push(one);
    if (sheet.terms) (made.differences ??= []).push(difference(sheet, item, one));
    if (item.trim) (made.trim ??= {})[item.what] = Math.max(0, -one.estimate);
  }
  if (sheet.shift) made.shift = shift(sheet.shift, known);
  made.say = say(sheet, given, made);
  return made;
}
