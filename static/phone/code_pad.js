// The keys for a code: digits, and the letters behind three keys, so that every key is large. A letter is two touches.
import { ALPHABET } from "./codes.js";
import { fill, h } from "./dom.js";
import { say } from "./words_phone.js";

const LETTERS = [...ALPHABET.slice(10)];
const GROUPS = [LETTERS.slice(0, 8), LETTERS.slice(8, 15), LETTERS.slice(15)];

/** The pad; `press(letter)` for each character, `press(null)` to rub the last one out. */
export function codePad(press) {
  const pad = h("div", { class: "pad code-pad" });
  const key = (text, act, word) => h("button", { type: "button", class: word ? "key word" : "key", onclick: act }, text);
  const type = (letter) => key(letter, () => { press(letter); digits(); });
  const to = (letters) => key(say("letters", { a: letters[0], z: letters.at(-1) }), () => group(letters), true);
  const rub = () => key(say("rub"), () => press(null), true);

  function digits() {
    const rows = ["123", "456", "789"].map((row, i) => [...[...row].map(type), to(GROUPS[i])]);
    fill(pad, rows, rub(), type("0"));
  }
  function group(letters) {
    fill(pad, letters.map(type), key(say("digits"), digits, true), rub());
    pad.querySelector("button").focus();
  }
  digits();
  return pad;
}
