// Lengths, as people type them and as they are said. `read` is exact: whole nanometres.
// Twin: fieldapp/trade/lengths.py; both read the case file tests/twins/lengths.json. What is typed is evened out
// in lengths_text.js, taken apart in lengths_parse.js and lengths_amount.js; lengths_say.js says it.

import {Doubt, Fault} from './lengths_amount.js';
import {fromText, roundAway, times} from './lengths_exact.js';
import {nanometres} from './lengths_parse.js';
import {NM_PER_MM} from './lengths_say.js';
import {LengthError, MOST_CHARACTERS, MOST_DIGITS, evened, numberText} from './lengths_text.js';

export {NM_PER_MM, fill, say, sayFine, sayUp} from './lengths_say.js';
export {LengthError} from './lengths_text.js';

export const MOST_MM = 100_000;
const MOST_NM = BigInt(MOST_MM * NM_PER_MM);

/** A length in whole nanometres, a half away from zero: a number is millimetres, a text is read as typed.
 *
 *  Throws LengthError, and nothing else, for whatever is no length: `message` is a sentence, `readings` are both
 *  readings where there are two. The digits of a number are the machine's, not a person's, so the limit of 15
 *  digits holds for text only. */
export function read(value) {
  const nm = typeof value === 'string' ? text(value) : number(value);
  const size = nm.n < 0n ? -nm.n : nm.n;
  if (size > MOST_NM * nm.d) throw new LengthError('far', value);
  return Number(roundAway(nm));
}

function number(value) {
  if (typeof value !== 'number') throw new LengthError('kind', value);
  if (!Number.isFinite(value)) throw new LengthError('finite', value);
  return times(fromText(numberText(value)), NM_PER_MM);
}

function text(value) {
  if ([...value].length > MOST_CHARACTERS) throw new LengthError('long', value);
  const plain = evened(value);
  if (!plain) throw new LengthError('empty', value);
  if (plain.replace(/[^0-9]/g, '').length > MOST_DIGITS) throw new LengthError('digits', value);
  try {
    return nanometres(plain);
  } catch (fault) {
    if (fault instanceof Fault) throw new LengthError(fault.code, value);
    if (fault instanceof Doubt) throw new LengthError('two ways', value, fault.readings);
    throw fault;
  }
}
