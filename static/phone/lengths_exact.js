// Exact fractions of whole numbers (BigInt), as many as lengths need.

const size = n => (n < 0n ? -n : n);

/** n/d; d is above 0. */
export const exact = (n, d = 1n) => ({n: BigInt(n), d: BigInt(d)});

export const plus = (a, b) => exact(a.n * b.d + b.n * a.d, a.d * b.d);
export const times = (a, whole) => exact(a.n * BigInt(whole), a.d);
export const negative = a => exact(-a.n, a.d);

/** A decimal text such as "1234.5" or "-0.5", without exponent. */
export function fromText(text) {
  const [whole, decimals = ''] = text.split('.');
  return exact(whole + decimals, 10n ** BigInt(decimals.length));
}

/** The nearest whole number, a half away from zero (BigInt). */
export function roundAway(a) {
  const nearest = (2n * size(a.n) + a.d) / (2n * a.d);
  return a.n < 0n ? -nearest : nearest;
}

/** The smallest whole number that is not below it (BigInt). */
export function roundUp(a) {
  const cut = a.n / a.d;
  return a.n > 0n && cut * a.d !== a.n ? cut + 1n : cut;
}

/** Whole and part, as in 35 1/2, -1/2, 0. */
export function mixed(a) {
  const all = size(a.n);
  const whole = all / a.d;
  let [top, rest] = [a.d, all % a.d];
  const part = rest;
  while (rest) [top, rest] = [rest, top % rest];
  const words = whole || !part ? [String(whole)] : [];
  if (part) words.push(`${part / top}/${a.d / top}`);
  return (a.n < 0n ? '-' : '') + words.join(' ');
}
