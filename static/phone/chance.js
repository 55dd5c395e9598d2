// Chances and verdicts. Twin of fieldapp/trade/estimate/chance.py: the same names, the same limits.
// JavaScript has no error function: a series below 2.5, a continued fraction above (both agree with
// Python's erfc to about 1e-13).

export const INSIDE_FROM = 0.975;
export const OUTSIDE_TO = 0.025;
export const INSIDE = "inside";
export const OUTSIDE = "outside";
export const TOO_CLOSE = "too close to call";
export const NOT_KNOWN = "not known";

const SPLIT = 2.5;
const NOTHING = 27;  // beyond it erfc is below the least number that is told from 0

// erf(x) for 0 <= x < 2.5: exp(-x²) times a series of positive terms, so nothing cancels.
function erf(x) {
  const square = 2 * x * x;
  let term = x;
  let sum = x;
  for (let n = 3; term > sum * 1e-17; n += 2) {
    term *= square / n;
    sum += term;
  }
  return 2 / Math.sqrt(Math.PI) * Math.exp(-x * x) * sum;
}

// erfc(x) for x >= 2.5, the continued fraction evaluated from its end: the further out, the fewer levels it takes
// to converge to double precision (some 40 at 2.5).
function erfcFar(x) {
  if (x > NOTHING) return 0;
  let tail = x;
  for (let n = 10 + Math.ceil(250 / (x * x)); n >= 1; n -= 1) tail = x + n / 2 / tail;
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * tail);
}

/** Standard normal distribution function of z. */
export function phi(z) {
  const x = Math.abs(z) / Math.SQRT2;
  const upper = x < SPLIT ? 0.5 - 0.5 * erf(x) : 0.5 * erfcFar(x);
  return z < 0 ? upper : 1 - upper;
}

/** Chance that a value lies in low … high (null: open), from its estimate and standard uncertainty u. */
export function chanceInside(estimate, u, low, high) {
  if (u === 0) {
    return (low === null || estimate >= low) && (high === null || estimate <= high) ? 1 : 0;
  }
  const belowHigh = high === null ? 1 : phi((high - estimate) / u);
  const belowLow = low === null ? 0 : phi((low - estimate) / u);
  return Math.max(0, belowHigh - belowLow);
}

/** `inside` from 0.975, `outside` up to 0.025, else `too close to call`. */
export function verdict(chance) {
  const rounded = Math.round(chance * 1e6) / 1e6;
  if (rounded >= INSIDE_FROM) return INSIDE;
  return rounded <= OUTSIDE_TO ? OUTSIDE : TOO_CLOSE;
}
