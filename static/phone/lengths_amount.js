// One amount inside a typed length: a number, a fraction, or a number and a fraction. Exact.
// Twin: fieldapp/trade/lengths_amount.py.

import {exact, fromText, mixed, negative, plus} from './lengths_exact.js';

export const NUMBER = '(?:[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+(?:\\.[0-9]+)?|(?:\\.[0-9]{3})+,[0-9]+|(?:\\.[0-9]{3}){2,}'
  + '|(?: [0-9]{3})+(?:[.,٫][0-9]+)?|(?:٬[0-9]{3})+(?:[.,٫][0-9]+)?)|[0-9]+[.,٫]?[0-9]*|[.,٫][0-9]+)';
const VULGAR = {
  '½': '1/2', '⅓': '1/3', '⅔': '2/3', '¼': '1/4', '¾': '3/4', '⅕': '1/5',
  '⅖': '2/5', '⅗': '3/5', '⅘': '4/5', '⅙': '1/6', '⅚': '5/6', '⅐': '1/7',
  '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8', '⅑': '1/9', '⅒': '1/10',
};
const SIGNS = Object.keys(VULGAR).join('');
// Five groups: a number; what joins it to a fraction; that fraction; a fraction sign touching the number; or
// a fraction alone. Only a sign may touch: 361/2 is 361 halves.
export const AMOUNT = `(?:(${NUMBER})(?:( ?- ?| )([0-9]+/[0-9]+|[${SIGNS}])|([${SIGNS}]))?|([0-9]+/[0-9]+|[${SIGNS}]))`;
const DENOMINATORS = [2n, 4n, 8n, 16n, 32n, 64n];
const COMMA_AND_THREE = /^[1-9][0-9]{0,2},[0-9]{3}$/;

export const isWhole = text => /^[0-9]+$/.test(text);

/** The writing breaks a rule; `code` is a key of lengths_text's sentences. */
export class Fault extends Error {
  constructor(code) {
    super(code);
    this.code = code;
  }
}

/** The writing can be read in two ways. */
export class Doubt extends Error {
  constructor(first, second) {
    super('two ways');
    this.readings = [first, second];
  }
}

/** The five groups of AMOUNT as {typed, join, number, fraction, text, whole}: number and fraction in plain writing,
 *  empty when there is none; whole when no decimal mark was typed. */
export function amount([typed, join, apart, touching, alone]) {
  const number = plain(typed ?? '');
  const found = apart ?? touching ?? alone ?? '';
  const fraction = VULGAR[found] ?? found;
  const whole = isWhole(number) && isWhole(typed.at(-1));
  return {typed, join, number, fraction, whole, text: `${number} ${fraction}`.trim()};
}

/** The exact value. Throws Fault or Doubt where the writing allows none, or two. */
export function valueOf({typed, join, number, fraction, text, whole}) {
  const part = fraction ? partOf(fraction) : exact(0);
  if (fraction && typed && !whole) throw new Fault('decimals');
  if (typed && COMMA_AND_THREE.test(typed)) throw new Doubt(number, number.replace('.', ''));
  const count = fromText(number || '0');
  if (join?.includes('-') && join.includes(' ')) throw new Doubt(text, mixed(plus(count, negative(part))));
  return plus(count, part);
}

/** `1,234.5`, `1.234,5`, `1 234,5`, `.5`, `5.` as digits with at most one point: 1234.5, 0.5, 5. */
export function plain(typed) {
  const marks = typed.replace(/[0-9 ٬]/g, '');
  let digits = typed.replace(/[ ٬]/g, '');
  // the first kind parts groups of three; a last one of another kind is the decimal mark
  if (marks.length > 1) digits = digits.replaceAll(marks[0], '');
  const [whole, decimals = ''] = digits.replace(/[,٫]/g, '.').split('.');
  return decimals ? `${whole || '0'}.${decimals}` : whole;
}

function partOf(fraction) {
  const [above, below] = fraction.split('/').map(BigInt);
  if (!DENOMINATORS.includes(below)) throw new Fault('denominator');
  if (above >= below) throw new Fault('improper');
  return exact(above, below);
}
