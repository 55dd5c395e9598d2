// A reading is a dimension line: name and allowance above, the figure on its line, the state under it.
import { h } from "./dom.js";
import { say as sayLength } from "./lengths.js";
import { arrow, stateLine } from "./shapes.js";
import { say } from "./words.js";

const NM = 1e6;
const FIGURE = /^(.*?)(?:^|[\s-])?(\d+)[/⁄](\d+)\s*(.*)$/;
const UCUM = { 1: "", Cel: "°C", "/min": "/min", deg: "°", "[in_i]": "in" };
const PARTS = { 2: "half|halves", 4: "quarter|quarters", 8: "eighth|eighths", 16: "sixteenth|sixteenths", 32: "thirty-second|thirty-seconds", 64: "sixty-fourth|sixty-fourths" };

/** A unit's sign as people write it. */
export const unitSign = (ucum) => UCUM[ucum] ?? ucum ?? "";

// "88 13/16 in" as spoken
function spoken(whole, top, bottom, unit) {
  const part = PARTS[bottom]?.split("|")[top === "1" ? 0 : 1] ?? bottom;
  return `${whole ? `${whole} and ` : ""}${top} ${part} ${/^in/.test(unit) ? "inches" : unit}`;
}

/** The nodes of a figure: the fraction stacked, the unit smaller; screen readers hear it spoken. */
export function figureNodes(text) {
  const bare = text.replace(/^[+−-]\s*/, "").replace(/\u00A0/g, " ");
  const found = FIGURE.exec(bare);
  if (!found) {
    const [, figure, unit] = /^([\d.,'′″"\s]*\d?)\s*(.*)$/.exec(bare);
    return [h("span", null, figure.trim()), unit ? h("span", { class: "unit" }, unit) : null];
  }
  const [, whole, top, bottom, unit] = found;
  return [h("span", { class: "hidden" }, spoken(whole.trim(), top, bottom, unit)),
    whole.trim() ? h("span", { "aria-hidden": "true" }, whole.trim()) : null,
    h("span", { class: "fraction", "aria-hidden": "true" }, h("span", null, top), h("span", null, bottom)),
    unit ? h("span", { class: "unit", "aria-hidden": "true" }, unit) : null];
}

const typedIn = (text) => (/in|ft|["″'′”/⁄½¼¾⅛⅜⅝⅞]/.test(text) ? "in" : "mm");

/** A kept reading as text: as typed where one figure was typed, the mean where a level was turned; no sign. */
export function readingText(entry) {
  const { text, nm, ucum } = entry.value;
  if (nm === undefined) return `${text}${ucum && !text.includes(unitSign(ucum)) ? ` ${unitSign(ucum)}` : ""}`;
  if (text.includes(";")) return sayLength(Math.abs(nm) / NM, typedIn(text));
  const bare = text.trim().replace(/^[+−-]\s*/, "");
  return /[^\d.,\s]/.test(bare) ? bare : `${bare} mm`;
}

/** A length in nm in the reader's unit, without its sign. */
export const lengthText = (nm, show) => sayLength(Math.abs(nm) / NM, show);

/** What is allowed, in the reader's unit: "± 1.6 mm", "0 to 2 mm", "at least 25 mm"; "" when nothing is. */
export function allowanceText(expect, isLength, show, ucum) {
  if (!expect) return "";
  const one = (x) => (isLength ? lengthText(x, show) : `${x} ${unitSign(ucum)}`.trim());
  const { from = null, to = null } = expect;
  if (from === null && to === null) return "";
  if (from === null) return say("at_most", { x: one(to) });
  if (to === null) return say("at_least", { x: one(from) });
  if (from === -to) return `±\u00A0${one(to)}`;
  if (isLength && from < 0) return `${one(from)} ${say("way.lower")}, ${one(to)} ${say("way.higher")}`;
  return isLength ? say("from_to", { a: one(from).replace(/\u00A0(mm|in)$/, ""), b: one(to) }) : say("from_to", { a: one(from), b: one(to) });
}

/**
 * One dimension line, a link to where it is read. `text`: the figure (null: not read), `way` its direction,
 * `how` how it is read, `verdict` and `flipped` the shape, `manner` what stands at the right under it, `empty` what stands on a dashed line;
 * `plain`: the text is words, not a figure.
 */
export function dimLine({ go, name, allowance, text = null, way = null, verdict = null, flipped = false, manner = "", how = null, empty = say("touch"), plain = false }) {
  const state = verdict ?? (text === null ? "not read" : null);
  const under = [state ? stateLine(state, null, { flipped }) : null, manner ? h("span", { class: "manner" }, manner) : null].filter(Boolean);
  return h(go ? "a" : "div", { class: "dim", href: go ?? false },
    h("span", { class: "name" }, name), h("span", { class: "allowance" }, allowance),
    text === null ? h("span", { class: "figure empty" }, empty)
      : h("span", { class: "figure" }, way ? arrow(way.arrow) : null, way ? h("span", { class: "hidden" }, way.word) : null, plain ? h("span", { class: "written" }, text) : figureNodes(text)),
    under.length ? h("span", { class: "under" }, under) : null, how ? h("span", { class: "how" }, how) : null);
}
