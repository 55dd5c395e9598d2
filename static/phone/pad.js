// The number pad as nodes: digits 1 2 3 on top, a strip of its own column for what is not a digit.
import { h } from "./dom.js";
import { arrow } from "./shapes.js";
import { say } from "./words.js";

const key = (name, label, press, more = {}) => h("button", { type: "button", "data-key": name, onclick: () => press(name), ...more }, label);
const box = () => h("span", { class: "box" });
const over = (den) => h("span", { class: "fraction" }, box(), h("span", null, den ?? box()));
const word = (text, ...more) => [...more, h("span", { class: "word" }, text)];

// the four keys of the strip
function strip(kind, unit, face, ways, present, last) {
  if (face === 2) return ["/2", "/4", "/8", "/16"].map((k) => [k, over(k.slice(1)), present.den === k.slice(1)]);
  const inches = kind === "length" && unit === "in";
  const first = inches ? ["and", [h("span", { class: "word" }, say("and_key")), over()]] : null;
  const signs = ways ? ways.map((way, i) => [i ? "+" : "-", word(way.key, arrow(way.arrow, 22)), present.sign === (i ? "+" : "-")]) : null;
  const middle = signs ?? [inches ? ["ft", say("ft")] : null, kind === "number" && present.minus ? ["±", "±"] : null];
  return [first, ...middle, last && [last[0], word(last[1])]];
}

/** Marks on a pad that stands which denominator and which direction are in the line. */
export function markPad(pad, at) {
  const down = [/\/\d+$/.exec(at.text)?.[0], /^[+-]/.exec(at.text)?.[0]];
  for (const node of pad.querySelectorAll(".strip")) {
    if (down.includes(node.dataset.key)) node.setAttribute("aria-pressed", "true");
    else node.removeAttribute("aria-pressed");
  }
}

/**
 * The pad for a line {text, face}. `ways`: the two directions in place of ±; `minus`: ± is offered; `press(key)`
 * is called with the names of pad_keys.js, or that of `last` = [name, words], the strip's last key (null: none).
 */
export function padNode({ kind, unit, at, ways = null, minus = false, press, left = false, last = ["not-read", say("not_read")] }) {
  const present = { den: /\/(\d+)$/.exec(at.text)?.[1] ?? null, sign: /^[+-]/.exec(at.text)?.[0] ?? null, minus };
  const column = strip(kind, unit, at.face, ways, present, last);
  const rows = [["1", "2", "3"], ["4", "5", "6"], ["7", "8", "9"], ["rub", "0", at.face === 2 ? "/32" : "."]];
  const digit = (k) => {
    if (k === "rub") return key(k, word(say("rub")), press, { class: "key word" });
    if (k === "/32") return key(k, over("32"), press, { class: "key strip", "aria-label": "□/32", "aria-pressed": present.den === "32" ? "true" : false });
    return key(k, k, press, { class: "key" });
  };
  const side = (item) => (item ? key(item[0], item[1], press, { class: "key strip", "aria-pressed": item[2] ? "true" : false, "aria-label": item[0].startsWith("/") ? `□${item[0]}` : false })
    : h("span", { class: "strip-gap" }));
  return h("div", { class: "pad number-pad" }, rows.map((row, i) => {
    const keys = row.map(digit);
    return left ? [side(column[i]), ...keys] : [...keys, side(column[i])];
  }));
}
