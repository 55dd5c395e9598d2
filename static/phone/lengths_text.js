// What a typed length looks like once its writing is evened out, and what is said when it cannot be read.
// Twin: fieldapp/trade/lengths_text.py. Both give the same sentences, letter for letter.

export const MOST_CHARACTERS = 40;
export const MOST_DIGITS = 15;

// Unicode's White_Space, and the byte order mark that pasted text may begin with. Inside a length only
// the spaces count: a tab or a new line parts two things that were copied together.
const AROUND = '[\\t-\\r \\x85\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000\\ufeff]+';
const TRIM = new RegExp(`^${AROUND}|${AROUND}$`, 'gu');
const SPACES = /[ \xa0\u1680\u2000-\u200a\u202f\u205f\u3000]+/gu;
const MARKS = {'′': "'", '‘': "'", '’': "'", '″': '"', '“': '"', '”': '"', '⁄': '/', '∕': '/', '−': '-'};
// Control characters, halves of surrogate pairs and what turns the direction of writing are not shown raw.
const UNSHOWABLE = /[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]/gu;

const SENTENCES = {
  empty: '“{given}” holds no length: type one, as in 914 mm, 36.5, 36 1/2 in, 3 ft 6 in.',
  kind: '{given} is no length: give a number of millimetres, or text such as 36 1/2 in.',
  finite: '{given} is no length: give a finite number of millimetres.',
  long: '“{given}” is longer than 40 characters: type one length, as in 36 1/2 in.',
  digits: '“{given}” has more than 15 digits: type only those that were measured, as in 914.4 mm.',
  'two ways': '“{given}” can be read as {first} or as {second}: type the one that is meant.',
  signs: '“{given}” has two signs: put at most one in front, as in -36 1/2 in.',
  denominator: '“{given}” has a fraction that no tape has: use 2, 4, 8, 16, 32 or 64, as in 13/32 in.',
  improper: '“{given}” has a fraction of one or more: type whole inches and a part, as in 37 1/8 in.',
  decimals: '“{given}” has decimals and a fraction: type one of them, as in 36.5 in or 36 1/2 in.',
  feet: '“{given}” has parts of a foot and inches: before inches feet are whole, as in 3 ft 6 in.',
  inches: '“{given}” has 12 inches or more after the feet: they stay under 12, as in 3 ft 6 1/2 in.',
  units: '“{given}” has two units: only feet and inches may stand together; type one, as in 1200 mm.',
  unit: '“{given}” has an unknown unit: use mm, cm, m, in or ft, as in 914 mm.',
  far: '“{given}” is beyond 100 m: a length lies between -100 m and 100 m.',
  unreadable: '“{given}” cannot be read as a length: type one, as in 914 mm, 36.5, 36 1/2 in, 3 ft 6 in.',
};

/** A length that cannot be read. `message` is the whole sentence; `code` names the rule; `readings` holds both
 *  readings as texts where there are two, else nothing. */
export class LengthError extends Error {
  constructor(code, given, readings = []) {
    const [first = '', second = ''] = readings;
    const parts = {given: shown(given), first, second};
    super(SENTENCES[code].replace(/\{(\w+)\}/g, (place, name) => parts[name]));
    Object.assign(this, {name: 'LengthError', code, readings: [...readings]});
  }
}

/** At most 40 characters of what was given, fit for a sentence. */
export function shown(given) {
  const characters = [...(typeof given === 'string' ? given : named(given))];
  const more = characters.length > MOST_CHARACTERS ? '…' : '';
  return (characters.slice(0, MOST_CHARACTERS).join('') + more).replace(UNSHOWABLE, '\ufffd');
}

function named(given) {
  if (given === null || given === undefined) return 'null';
  if (typeof given === 'boolean') return String(given);
  if (typeof given === 'number') return numberText(given);
  return Array.isArray(given) ? 'a list' : 'an object';
}

/** The shortest decimal writing of a number, without exponent: 914, 0.0000001, NaN, -Infinity. */
export function numberText(value) {
  const [number, exponent] = String(value).split('e');
  if (exponent === undefined) return number;
  const [whole, decimals = ''] = number.replace('-', '').split('.');
  const point = whole.length + Number(exponent);
  const digits = (whole + decimals).padEnd(point, '0').padStart(decimals.length - Number(exponent) + 1, '0');
  const cut = point > 0 ? point : 1;
  const rest = digits.slice(cut);
  return (value < 0 ? '-' : '') + digits.slice(0, cut) + (rest ? `.${rest}` : '');
}

/** The text trimmed, in lower case, with plain digits, `-`, `'`, `"`, `/` and single spaces. */
export function evened(text) {
  const marked = text.replace(TRIM, '').replace(SPACES, ' ').replace(/[′‘’″“”⁄∕−]/gu, mark => MARKS[mark]);
  return [...marked.replaceAll("''", '"')].map(plain).join('').toLowerCase();
}

function plain(character) {
  if (character <= '\x7f') return character;
  return /\p{Pd}/u.test(character) ? '-' : digit(character);
}

// Every script's ten digits stand in a row from its zero on; where rows touch, they are whole rows.
function digit(character) {
  const isDigit = code => /\p{Nd}/u.test(String.fromCodePoint(code));
  const code = character.codePointAt(0);
  if (!isDigit(code)) return character;
  let first = code;
  while (isDigit(first - 1)) first -= 1;
  return String((code - first) % 10);
}
