// What a band sheet says. Twin of fieldapp/trade/estimate/band_say.py, which names the blanks.
import {INSIDE, OUTSIDE, TOO_CLOSE} from "./chance.js";
import {fill} from "./lengths.js";

const BOTH = "both";
const STYLES = {"mm": ["", ""], "%": ["|%", ""], "°C": ["|C", ""], "K": ["|n", "\u00a0K"]};
const USUAL = {
  [INSIDE]: "{say|text}: {estimate}. Within {band}.",
  [OUTSIDE]: "{say|text}: {estimate}. Outside {band}.",
  [TOO_CLOSE]: "{say|text}: {estimate}. Too close to {band} to call: measure it again.",
  [BOTH]: "{say|text}: no figure keeps both rules, at least {low} and at most {high}.",
};
const RANK = {[OUTSIDE]: 1, [TOO_CLOSE]: 2, [INSIDE]: 4};

function band(low, high) {
  if (low === null) return high === null ? "any figure" : "{high} or less";
  return high === null ? "{low} or more" : "{low} to {high}";
}

function usual(word, low, high, unit) {
  const [style, after] = STYLES[unit] ?? ["|n", `\u00a0${unit}`];
  const sentence = USUAL[word].replace("{band}", band(low, high));
  return ["estimate", "low", "high"].reduce(
    (text, name) => text.replaceAll(`{${name}}`, `{${name}${style}}${after}`), sentence);
}

// The sheet's own sentence: "nothing" for what is not above 0, "below" or "above" the band, else the verdict's.
function own(sentences, word, one) {
  if (one.estimate <= 0 && "nothing" in sentences) return sentences.nothing;
  if (word !== OUTSIDE) return sentences[word];
  const side = one.from !== null && one.estimate < one.from ? "below" : "above";
  return sentences[side] || sentences[word];
}

function line(item, one, texts, show) {
  const {estimate, from: low, to: high} = one;
  const word = low !== null && high !== null && low > high ? BOTH : one.verdict;
  const sentence = own(item.sentences ?? {}, word, one) || usual(word, low, high, item.unit ?? "mm");
  const blanks = {...texts, ...item.texts, say: item.say, estimate, size: Math.abs(estimate), trim: Math.max(0, -estimate),
                  ...low !== null && {low, short: low - estimate}, ...high !== null && {high, over: estimate - high}};
  return [RANK[one.verdict], fill(sentence, blanks, show)];
}

function row(sheet, chosen, show) {
  const ends = [chosen.margin_below, chosen.margin_above].filter(end => end !== null);
  const blanks = {...sheet.texts, value: chosen.value, row: chosen.row ?? "", other: chosen.other_row ?? "",
                  margin: ends.length ? Math.min(...ends.map(Math.abs)) : 0};
  let why = chosen.why;
  if (why === "close" && chosen.other_row === null) why = "edge";
  if (["thin", "thick", "between"].includes(why) && chosen.other_row !== null) why = `${why}_close`;
  return fill(sheet.rows.say[why], blanks, show);
}

function difference(sheet, item, one, texts, show) {
  const named = Object.fromEntries(sheet.terms.of[item.terms].map(term => [term.term, term.say]));
  const terms = one.explained_by.map(found => named[found.term]).join(" and ");
  return fill(sheet.terms.say[one.explained_by[0].how], {...texts, say: item.say, size: Math.abs(one.by), terms}, show);
}

function shift(spec, made, texts, show) {
  const by = made.shift;
  const word = by === null ? "none" : by === 0 ? "stay" : by < 0 ? "up" : "down";
  return fill(spec.say[word], {...texts, by: Math.abs(by ?? 0), tilt: made.tilt, low: made.low, high: made.high,
                               wide: made.high - made.low}, show);
}

/** The sentences of an answer `made`, the most important first, in mm or inches as given.show asks. */
export function say(sheet, given, made) {
  const show = given.show ?? "mm";
  const texts = sheet.texts ?? {};
  const items = Object.fromEntries(sheet.judged.map(item => [item.what, item]));
  const lines = (sheet.lead ?? []).map(first => [-1, fill(first, texts, show)]);
  if (made.pick) lines.push([0, row(sheet, made.pick, show)]);
  for (const one of made.differences ?? []) {
    if (one.explained_by.length) lines.push([0, difference(sheet, items[one.of], one, texts, show)]);
  }
  lines.push(...made.judged.map(one => line(items[one.what], one, texts, show)));
  if (made.shift) lines.push([3, shift(sheet.shift, made.shift, texts, show)]);
  lines.push(...(sheet.notes ?? []).map(note => [5, fill(note, texts, show)]));
  return lines.sort((a, b) => a[0] - b[0]).map(([, sentence]) => sentence);
}
