// The grammar of a typed length: evened text in, an exact number of nanometres out.
// Twin: fieldapp/trade/lengths_parse.py.

import {AMOUNT, Doubt, Fault, NUMBER, amount, isWhole, plain, valueOf} from './lengths_amount.js';
import {negative, plus, times} from './lengths_exact.js';

// Nanometres of a unit. The inch is exactly 25.4 mm, the foot 12 of them (international yard and pound
// agreement of 1959; NIST SP 811, 2008, appendix B).
const UNITS = {mm: 1_000_000, cm: 10_000_000, m: 1_000_000_000, in: 25_400_000, ft: 304_800_000};

const WORDS = {mm: 'mm|millimet(?:re|er)s?', cm: 'cm|centimet(?:re|er)s?', m: 'm|met(?:re|er)s?',
  in: 'in\\.?|inch|inches|"', ft: "ft\\.?|foot|feet|'"};
const UNIT = Object.values(WORDS).join('|');
const fully = pattern => new RegExp(`^(?:${pattern})$`, 'u');
const ONE = fully(`${AMOUNT}(?: ?(${UNIT}))?`);
const FEET = fully(`${AMOUNT} ?(${WORDS.ft})( ?- ?| ?)${AMOUNT}(?: ?(?:${WORDS.in}))?`);
const PAIR = fully(`(${NUMBER}) ${AMOUNT}(?: ?(${UNIT}))?`);
const TWO_UNITS = fully(`${AMOUNT} ?(?:${UNIT})[ \\-]*${AMOUNT} ?(?:${UNIT})`);
const OTHER_UNIT = fully(`${AMOUNT} ?[a-zµμ]+[.]?`);
const PARTS = 5; // groups of AMOUNT

/** Evened text to nanometres, exact. Throws Fault or Doubt where it allows no reading, or two. */
export function nanometres(text) {
  const [, sign, rest] = /^([+-]) ?(.*)$/su.exec(text) ?? ['', '', text];
  if (/^[+-]/.test(rest)) throw new Fault('signs');
  const minus = sign === '-' ? '-' : '';
  const found = inDoubt(() => size(rest), reading => (minus + reading).replace('--', ''));
  return minus ? negative(found) : found;
}

function size(text) {
  let found;
  if ((found = groups(ONE, text))) return one(amount(found), unitOf(found[PARTS]));
  if ((found = groups(FEET, text))) {
    const touching = found[PARTS] === 'ft.' && !found[PARTS + 1];
    return feetAndInches(amount(found), touching, amount(found.slice(PARTS + 2)));
  }
  if ((found = groups(PAIR, text))) {
    throw new Doubt(...pair(plain(found[0]), amount(found.slice(1)), unitOf(found[PARTS + 1])));
  }
  if (TWO_UNITS.test(text)) throw new Fault('units');
  throw new Fault(OTHER_UNIT.test(text) ? 'unit' : 'unreadable');
}

const groups = (pattern, text) => pattern.exec(text)?.slice(1);

/** The short name of a unit's word, empty for none. */
const unitOf = word => (word ? Object.keys(WORDS).find(unit => fully(WORDS[unit]).test(word)) : '');

function one(found, unit) {
  const name = unit || (found.fraction ? 'in' : 'mm');
  return times(said(found, reading => `${reading} ${name}`), UNITS[name]);
}

function feetAndInches(feet, touching, inches) {
  const whole = said(feet, reading => `${reading} ft ${inches.text} in`);
  if (feet.fraction || !feet.whole) throw new Fault('feet');
  if (touching && inches.typed === inches.text) {
    // 3ft.5: the point may end the foot's word or begin the inches
    throw new Doubt(`${feet.text} ft ${inches.text} in`, `${feet.text} ft 0.${inches.text} in`);
  }
  const part = said(inches, reading => `${feet.text} ft ${reading} in`);
  if (part.n >= 12n * part.d) throw new Fault('inches');
  return plus(times(whole, UNITS.ft), times(part, UNITS.in));
}

/** The amount's value; its doubt, if any, is put into the writing of the whole length. */
const said = (found, whole) => inDoubt(() => valueOf(found), whole);

function inDoubt(attempt, whole) {
  try {
    return attempt();
  } catch (fault) {
    throw fault instanceof Doubt ? new Doubt(...fault.readings.map(whole)) : fault;
  }
}

/** What two bare numbers may have been meant as: feet and inches, digits torn apart, a lost point. */
function pair(first, second, unit) {
  const name = unit || (second.fraction ? 'in' : 'mm');
  if (isWhole(first) && second.whole) {
    if (['', 'in'].includes(unit) && BigInt(second.number) < 12n) {
      return [`${first} ft ${second.text} in`, `${first}${second.text} ${name}`];
    }
    if (!second.fraction) return [`${first}${second.number} ${name}`, `${first}.${second.number} ${name}`];
  }
  return [`${first} ${name}`, `${second.text} ${name}`];
}
