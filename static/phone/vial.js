// A vial to scale: three tolerances either way, lines at the limits, a bar for the doubt, a bubble at the estimate.
import { s } from "./shapes.js";

const [WIDE, MID] = [120, 60];

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
    s("path", { d: `M${x(estimate - 1.96 * u)} 12H${x(estimate + 1.96 * u)}` }),
    s("circle", { cx: x(estimate), cy: 12, r: 5.5, fill: hollow ? "none" : "currentColor", "stroke-width": hollow ? 3 : 0 }));
}
