// Digit sheets: whether a check digit agrees, and the slips that would mend it.
// Twin of fieldapp/trade/estimate/digits.py, which says what a sheet holds.
import {INSIDE, NOT_KNOWN, OUTSIDE} from "./chance.js";
import {fill} from "./lengths.js";

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const DIGITS = "0123456789";
const KINDS = {letters: LETTERS, digits: DIGITS};

// The bare characters in capitals; null for any other length or character.
function read(sheet, text) {
  const upper = text.replace(/[a-z]/g, c => c.toUpperCase());
  const bare = [...upper].filter(c => !sheet.ignored.includes(c));
  const full = sheet.weights.length + 1;
  const fits = (bare.length === full || bare.length === full - 1) && bare.every(c => (LETTERS + DIGITS).includes(c));
  return fits ? bare.join("") : null;
}

function faults(sheet, text) {
  const found = new Set();
  for (const part of sheet.parts) {
    const piece = text.slice(part.from, part.to);
    if ([...piece].some(c => !KINDS[part.of].includes(c))) found.add(part.of);
    else if (part.one_of && !part.one_of.includes(piece)) found.add(part.name);
  }
  return ["letters", "digits", ...sheet.parts.map(part => part.name)].filter(word => found.has(word));
}

function remainder(sheet, text) {
  return sheet.weights.reduce((sum, weight, i) => sum + sheet.values[text[i]] * weight, 0) % sheet.modulus;
}

function digit(sheet, text) {
  const left = String(remainder(sheet, text));
  return String(sheet.counts_as[left] ?? left);
}

function right(sheet, text) {
  return !faults(sheet, text).length && text[sheet.weights.length] === digit(sheet, text);
}

// Every character of the wrong kind put right at once, where it has a look-alike.
function lookAlike(sheet, text) {
  const turns = {letters: Object.fromEntries(sheet.look_alikes.map(([letter, figure]) => [figure, letter])),
                 digits: Object.fromEntries(sheet.look_alikes)};
  return sheet.parts.map(part => [...text.slice(part.from, part.to)]
    .map(c => KINDS[part.of].includes(c) ? c : turns[part.of][c] ?? c).join("")).join("");
}

function* slips(sheet, text) {
  yield [lookAlike(sheet, text), "look_alike"];
  for (let i = 0; i + 1 < text.length; i += 1) {
    yield [text.slice(0, i) + text[i + 1] + text[i] + text.slice(i + 2), "swap"];
  }
  const where = sheet.parts.find(part => part.name === sheet.misread_in);
  for (let i = where.from; i < where.to; i += 1) {
    for (const pair of sheet.misread) {
      if (!pair.includes(text[i])) continue;
      yield [text.slice(0, i) + pair[1 - pair.indexOf(text[i])] + text.slice(i + 1), "misread"];
    }
  }
  // a letter read for the check digit is such a slip too
  if (!faults(sheet, text.slice(0, -1)).length) yield [text.slice(0, -1) + digit(sheet, text), "check_digit"];
}

function likely(sheet, text) {
  const found = new Map();
  for (const [slipped, how] of slips(sheet, text)) {
    if (slipped !== text && right(sheet, slipped) && !found.has(slipped)) found.set(slipped, how);
  }
  return [...found].map(([identification, how]) => ({identification, how}));
}

function check(sheet, text) {
  const full = text.length > sheet.weights.length;
  const wrong = faults(sheet, text);
  const parts = Object.fromEntries(sheet.parts.slice(0, -1).map(part => [part.name, text.slice(part.from, part.to)]));
  if (wrong.length) return {...parts, check_digit: null, given: null, valid: false, remainder: null, because: wrong};
  const proper = Number(digit(sheet, text));
  const given = full ? Number(text[text.length - 1]) : null;
  return {...parts, check_digit: proper, given, valid: full ? proper === given : null,
          remainder: remainder(sheet, text), because: full && proper !== given ? ["check_digit"] : []};
}

function say(sheet, made, text, show) {
  const {says} = sheet;
  const blanks = {text, digit: String(made.check_digit), given: String(made.given)};
  const words = made.because.length ? made.because : [made.valid ? "right" : "no_digit"];
  const lines = words.map(word => fill(says[word], blanks, show));
  lines.push(...made.likely.map(one =>
    fill(says.likely, {text: one.identification, how: sheet.hows[one.how]}, show)));
  if (String(made.remainder) in sheet.counts_as) lines.push(says.ten);
  return [...lines, says.proof];
}

/** {verdict, valid, the parts, check_digit, given, remainder, because, likely, say, missing}. */
export function answer(sheet, given) {
  const show = given.show ?? "mm";
  const {name} = sheet.inputs[0];
  const typed = given.inputs?.[name] ?? null;
  const empty = {...Object.fromEntries(sheet.parts.slice(0, -1).map(part => [part.name, null])), check_digit: null,
                 given: null, valid: null, remainder: null, likely: [], because: []};
  if (typed === null) return {verdict: null, ...empty, say: [], missing: [name]};
  const text = read(sheet, typed);
  if (text === null) {
    const shown = [...typed].slice(0, 40).join("");
    return {verdict: OUTSIDE, ...empty, because: ["unreadable"], missing: [],
            say: [fill(sheet.says.unreadable, {text: shown}, show)]};
  }
  const made = check(sheet, text);
  made.likely = made.valid === false && text.length > sheet.weights.length ? likely(sheet, text) : [];
  const verdict = made.valid === null ? NOT_KNOWN : made.valid ? INSIDE : OUTSIDE;
  return {verdict, ...made, missing: [], say: say(sheet, made, text, show)};
}

/** {what: verdict}: inside when right, outside when not, not known without a check digit, null for nothing. */
export function judge(sheet, given) {
  const {verdict} = answer(sheet, given);
  return Object.fromEntries(sheet.judged.map(item => [item.what, verdict]));
}
