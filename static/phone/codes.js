// The short code of a unit: four letters and a check character, c = a·d0 + a²·d1 + a³·d2 + a⁴·d3 over the field of
// 32 elements: it catches every wrong letter and every swap. The scheme is fieldapp/store/codes.py's.

export const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const WEIGHTS = [2, 4, 8, 16, 1];
const LOOKALIKES = {O: '0', I: '1', L: '1'};

// The product of two elements (0 … 31) of the field of 2^5, x^5 + x^2 + 1.
function multiply(a, b) {
  let product = 0;
  for (; b; b >>= 1) {
    if (b & 1) product ^= a;
    a <<= 1;
    if (a & 32) a ^= 0b100101;
  }
  return product;
}

// What a person typed, as code letters: capitals, O read as 0, I and L as 1, spaces and dashes dropped.
export function normalise(typed) {
  return [...typed.toUpperCase()].map((letter) => LOOKALIKES[letter] ?? letter)
    .filter((letter) => /[0-9A-Z]/.test(letter)).join('');
}

// The five letters of a right short code, however it was typed; null when it does not add up.
export function check(typed) {
  const letters = [...normalise(typed)];
  if (letters.length !== 5 || letters.some((letter) => !ALPHABET.includes(letter))) return null;
  const sum = letters.reduce((total, letter, at) => total ^ multiply(ALPHABET.indexOf(letter), WEIGHTS[at]), 0);
  return sum === 0 ? letters.join('') : null;
}

// `7K3MQ` as it is printed: `7K3-MQ`.
export function shown(short) {
  return `${short.slice(0, 3)}-${short.slice(3)}`;
}
