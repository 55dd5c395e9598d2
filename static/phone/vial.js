// A vial to scale: three tolerances either way, lines at the limits, a bar for the doubt, a bubble at the estimate.
import { lengthText } from "./dim.js";
import { sayUp } from "./lengths.js";
import { s } from "./shapes.js";
import { say } from "./words.js";

const [WIDE, MID] = [120, 60];
const RANGE = 1.96;  // standard uncertainties either side of an estimate: where it lies 19 times in 20

/** `from` and `to` the limits (null: open), all in one unit; the bubble is hollow when it is too close to call. */
export function vial(estimate, u, from, to, verdict) {
  const low = from ?? Math.min(estimate, to) - Math.abs(to - estimate || 1);
  const high = to ?? Math.max(estimate, from) + Math.abs(estimate - from || 1);
  const half = (high - low) / 2 || 1;
  const x = (value) => Math.max(6, Math.min(WIDE - 6, MID + (value - (low + high) / 2) / half * (MID / 3)));
  const line = (value) => (value === null ? "" : `M${x(value)} 2V22`);
  const colour = { inside: "is-inside", outside: "is-outside", "too close to call": "is-close" }[verdict] ?? "";
  const hollow = verdict === "too close to call" || verdict === "not known";
  return s("svg", { class: `vial ${colour}`, viewBox: `0 0 ${WIDE} 24`, fill: "none", stroke: "currentColor", "stroke-width": 3, "aria-hidden": "true" },
    s("path", { class: "hair", "stroke-width": 1.5, d: `M0 12H${WIDE}` }), s("path", { class: "ink", d: line(from) + line(to) }),
    s("path", { d: `M${x(estimate - RANGE * u)} 12H${x(estimate + RANGE * u)}` }),
    s("circle", { cx: x(estimate), cy: 12, r: 5.5, fill: hollow ? "none" : "currentColor", "stroke-width": hollow ? 3 : 0 }));
}

// the chance to a tenth of a hundred, never rounded over a verdict's limit
const ofHundred = (chance) => (chance < 0.5 ? Math.ceil(chance * 1000) : Math.floor(chance * 1000)) / 10;

/** What the bar shows, in words: the estimate, as `text` says it, ± its 95 % range; in inches with mm beside, so that no
 *  doubt is rounded to nothing; and the chance where it is too close to call. All in mm. */
export function rangeText({ estimate, u, chance_inside: chance, verdict }, text, show) {
  const range = u && Math.max(RANGE * u, 0.1);
  const mm = (value) => lengthText(value * 1e6, "mm");
  const words = show === "mm" ? say("doubt", { x: text, u: mm(range) })
    : say("doubt_in", { x: text, u: sayUp(range, show), mm: mm(estimate).replace(/\D+$/, ""), umm: mm(range) });
  return verdict === "too close to call" && chance !== undefined ? `${words}, ${say("inside_in", { n: ofHundred(chance) })}` : words;
}

/** The same of a quantity that is no length, `figure(value)` its text. */
export const plainRange = ({ estimate, u }, figure) => say("doubt", { x: figure(estimate), u: figure(RANGE * u) });
