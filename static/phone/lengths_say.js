// How a length is said: to 0.1 mm or to 1/32 in, and in the sentences of sheets.
// Twin: fieldapp/trade/lengths_say.py. Everything rounds from whole nanometres, halves away from zero, so that
// server and phone, whose figures agree to about 1e-9 mm, say the same.

import {exact, fromText, mixed, roundAway, roundUp, times} from './lengths_exact.js';
import {numberText, shown} from './lengths_text.js';

export const NM_PER_MM = 1_000_000;
const NM_PER_32ND = 793_750;
const NM_PER_THOUSANDTH = 25_400;
const [SPACE, MINUS] = ['\xa0', '−'];
const PLACE = /\{([^{}^|]+)(\^|\|[^{}]*)?\}/g;

/** A length in mm as people read it, `36.5 mm` or `1 7/16 in`, with no-break spaces and a minus sign. */
export function say(mm, show, point = '.') {
  return metric(show) ? `${decimal(mm, point)}${SPACE}mm` : thirtySeconds(roundAway(exact(nm(mm), NM_PER_32ND)));
}

/** The same, rounded up to the next 0.5 mm or 1/32 in; what lies on a step stays there. */
export function sayUp(mm, show, point = '.') {
  if (!metric(show)) return thirtySeconds(roundUp(exact(nm(mm), NM_PER_32ND)));
  return `${tenths(5n * roundUp(exact(nm(mm), NM_PER_MM / 2)), point)}${SPACE}mm`;
}

/** What a calliper or a gauge reads, to 0.1 mm or 0.001 in: of a grip, a hole or a seal 1/32 in says too little. */
export function sayFine(mm, show, point = '.') {
  if (metric(show)) return say(mm, show, point);
  const count = roundAway(exact(nm(mm), NM_PER_THOUSANDTH));
  const size = count < 0n ? -count : count;
  return `${count < 0n ? MINUS : ''}${size / 1000n}${point}${String(size % 1000n).padStart(3, '0')}${SPACE}in`;
}

/** A sheet's sentence with its places filled; `point` is the language's decimal mark.
 *
 *  `{name}` is a length in mm, `{name^}` one rounded up (`sayUp`), `{name|fine}` one that a calliper reads (`sayFine`),
 *  `{name|%}` a percentage and `{name|C}` degrees Celsius to 0.1, `{name|n}` a bare number to 0.1, `{name|text}` a text
 *  as given. Throws for an unknown name, an unknown kind of place, a brace that is no place, and a value of the wrong
 *  kind. */
export function fill(sentence, values, show, point = '.') {
  if (/[{}]/.test(sentence.replace(PLACE, ''))) {
    throw new Error(`a brace that is no place in “${sentence}”: write places as {name}`);
  }
  return sentence.replace(PLACE, (place, name, how = '') => filled(name, how, values, show, point));
}

const KINDS = {
  '': say,
  '^': sayUp,
  '|fine': sayFine,
  '|%': (value, show, point) => `${decimal(value, point)}${SPACE}%`,
  '|C': (value, show, point) => `${decimal(value, point)}${SPACE}°C`,
  '|n': (value, show, point) => decimal(value, point),
};

function filled(name, how, values, show, point) {
  if (!Object.hasOwn(values, name)) {
    throw new Error(`no value for {${name}}; there are: ${Object.keys(values).sort().join(', ') || 'none'}`);
  }
  const value = values[name];
  if (how === '|text') {
    if (typeof value !== 'string') throw new Error(`{${name}${how}} takes a text, not ${shown(value)}`);
    return value;
  }
  if (typeof value !== 'number') throw new Error(`{${name}${how}} takes a number, not ${shown(value)}`);
  if (!Object.hasOwn(KINDS, how)) {
    throw new Error(`{${name}${how}} is no place: after the name comes ^, |fine, |%, |C, |n, |text or nothing`);
  }
  return KINDS[how](value, show, point);
}

function metric(show) {
  if (show !== 'mm' && show !== 'in') throw new Error(`show is mm or in, not ${shown(show)}`);
  return show === 'mm';
}

/** Whole millionths of a number (BigInt). */
function nm(mm) {
  if (!Number.isFinite(mm)) throw new Error(`${shown(mm)} cannot be said: give a finite number`);
  return roundAway(times(fromText(numberText(mm)), NM_PER_MM));
}

const decimal = (value, point) => tenths(roundAway(exact(nm(value), NM_PER_MM / 10)), point);

function tenths(count, point) {
  const size = count < 0n ? -count : count;
  const rest = size % 10n;
  return (count < 0n ? MINUS : '') + size / 10n + (rest ? point + rest : '');
}

function thirtySeconds(count) {
  return mixed(exact(count, 32)).replace('-', MINUS).replaceAll(' ', SPACE) + SPACE + 'in';
}
