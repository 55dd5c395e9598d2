// Rule sheets: lines in order, each two inputs or an input and a constant compared.
// Twin of fieldapp/trade/estimate/rules.py, which says what a sheet holds.
import {INSIDE, OUTSIDE, TOO_CLOSE} from "./chance.js";
import {tidy} from "./estimate_band_values.js";
import {fill} from "./lengths.js";

const MONTH = "2027-09".length;
const LAST_DAY = "-31";

// {path or name of a value: what is known}; nulls left out.
function knownOf(sheet, given) {
  const recorded = given.inputs ?? {};
  const known = {};
  for (const item of sheet.inputs) {
    const value = item.name in recorded ? recorded[item.name] : item.value ?? null;
    if (value !== null) known[item.name] = value;
  }
  for (const value of sheet.values ?? []) {
    const over = value.over ?? [];
    if (![...value.of, ...over].every(path => path in known)) continue;
    const product = value.of.reduce((made, path) => made * known[path], value.times ?? 1);
    known[value.name] = over.reduce((made, path) => made / known[path], product);
  }
  return known;
}

function missingOf(sheet, given) {
  const recorded = given.inputs ?? {};
  return sheet.inputs.filter(item => (item.needed ?? true) && !("value" in item) && !(item.name in recorded))
    .map(item => item.name);
}

// What < and > compare: a number without binary dust, or a date with a month put at its last day.
function ordered(value) {
  if (typeof value === "string") return value.length === MONTH ? value + LAST_DAY : value;
  return typeof value === "number" ? tidy(value) : null;
}

function applies(rule, known) {
  if (rule.is === "missing") return !(rule.left in known);
  const left = known[rule.left];
  const right = "right" in rule ? known[rule.right] : rule.constant;
  if (left === undefined || right === undefined) return false;
  if (rule.is === "is") return left === right;
  const first = ordered(left);
  const second = ordered(right);
  if (first === null || second === null || typeof first !== typeof second) return false;
  return rule.is === "<" ? first < second : first > second;
}

function verdictOf(sheet, found) {
  const words = found.map(rule => rule.verdict);
  return [OUTSIDE, TOO_CLOSE, INSIDE].find(word => words.includes(word)) ?? sheet.else.verdict;
}

/** {what: verdict}; null while a needed input was never recorded. */
export function judge(sheet, given) {
  const {verdict} = answer(sheet, given);
  return Object.fromEntries(sheet.judged.map(item => [item.what, verdict]));
}

/** {verdict, because, values, missing, say}. */
export function answer(sheet, given) {
  const show = given.show ?? "mm";
  const known = knownOf(sheet, given);
  const missing = missingOf(sheet, given);
  const found = missing.length ? [] : sheet.rules.filter(rule => applies(rule, known));
  const lines = found.length || missing.length ? [...found] : [sheet.else];
  lines.push(...(sheet.always ?? []).filter(line => (line.needs ?? []).every(name => name in known)));
  const blanks = Object.fromEntries(Object.entries(known).filter(([, value]) => typeof value !== "boolean")
    .map(([path, value]) => [path.replaceAll(".", "_"), value]));
  const values = Object.fromEntries((sheet.values ?? []).map(value => [value.name, known[value.name] ?? null]));
  return {verdict: missing.length ? null : verdictOf(sheet, found), because: [...new Set(found.map(rule => rule.because))],
          values, missing, say: lines.map(line => fill(line.say, blanks, show))};
}
