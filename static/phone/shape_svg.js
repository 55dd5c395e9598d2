// The shapes of states. A shape is always followed by its word; only the shape takes colour.
const NS = "http://www.w3.org/2000/svg";

/** An SVG element with attributes and children. */
export function s(tag, attributes, ...children) {
  const node = document.createElementNS(NS, tag);
  for (const [name, value] of Object.entries(attributes ?? {})) if (value !== null && value !== undefined) node.setAttribute(name, value);
  node.append(...children.flat().filter((c) => c !== null && c !== undefined));
  return node;
}

const BOX = "M3.5 3.5H20.5V20.5H3.5Z";
// name: [width, path, {dot: [cx, cy, r], ring: the same open, dash, thin: [path, dash], thick: path, flips}]
const SHAPES = {
  "inside": [36, "M7 2V22M29 2V22", { dot: [18, 12, 6] }],
  "outside": [36, "M3 2V22M17 2V22", { dot: [28, 12, 6] }],
  "far": [36, "M3 2V22M17 2V22", { dot: [28, 12, 6] }],
  "too close to call": [36, "M5 2V22M23 2V22", { ring: [23, 12, 7] }],
  "not read": [36, "M7 2V22M29 2V22", { dash: "4 4" }],
  "not known": [36, "M7 2V22M29 2V22", { dash: "4 4" }],
  "not released": [24, "M2 21H22", { dashed: ["M3 2L12 19L21 2", "4.5 4"] }],
  "stated": [24, "M2 21H22M4 3L12 20"],
  "confirmed": [24, "M2 21H22M4 3L12 20L20 3"],
  "complete": [24, "M2 4V20M22 4V20M2 12H22"],
  "waiting": [24, "M2 4V20M2 12H11M14 12H17M20 12H22"],
  "stale": [24, "M2 4V14M22 10V20M2 9H12M12 15H22"],
  "on this phone": [24, BOX, { dot: [12, 12, 4] }],
  "sending": [24, "M3.5 3.5V20.5H20.5V3.5", { dot: [12, 8, 4] }],
  "sent": [24, "M2 15H22M2 21H22", { dot: [12, 7, 4] }],
  "refused": [24, BOX, { thick: "M1 23L23 1" }],
  "quarantined": [24, BOX, { dash: "5 3.5", dot: [12, 12, 4] }],
  "two stand": [36, "M2 3H14V21H2ZM22 3H34V21H22Z", { dot: [8, 9, 3], dot2: [28, 15, 3] }],
  "done": [24, "M3 13L9 20L21 4"],
  "open": [24, "M3 12H21"],
  "passed": [24, "M3 13L9 20L21 4M3 22H21"],
};
const COLOURS = { "inside": "is-inside", "outside": "is-outside", "far": "is-outside", "too close to call": "is-close" };

const disc = ([cx, cy, r], hollow) => s("circle", { cx, cy, r, fill: hollow ? "none" : "currentColor", stroke: hollow ? "currentColor" : "none" });

/** The shape of a state, hidden from screen readers; `flipped`: it left by the low or left side. */
export function shape(name, flipped = false) {
  const [width, path, more = {}] = SHAPES[name];
  const inner = s("g", { transform: flipped ? `matrix(-1 0 0 1 ${width} 0)` : null },
    s("path", { d: path, "stroke-dasharray": more.dash }),
    more.dashed ? s("path", { d: more.dashed[0], "stroke-dasharray": more.dashed[1] }) : null,
    more.thick ? s("path", { d: more.thick, "stroke-width": 4 }) : null,
    more.dot ? disc(more.dot) : null, more.dot2 ? disc(more.dot2) : null, more.ring ? disc(more.ring, true) : null);
  return s("svg", { class: `shape ${COLOURS[name] ?? ""}`, width, height: 24, viewBox: `0 0 ${width} 24`, fill: "none",
    stroke: "currentColor", "stroke-width": 3, "aria-hidden": "true", focusable: "false" }, inner);
}

/** The triangle of a caution, 36 × 36. */
export function triangle() {
  return s("svg", { class: "triangle", width: 36, height: 36, viewBox: "0 0 24 24", "aria-hidden": "true", focusable: "false" },
    s("path", { d: "M12 1.5L23.5 22H.5Z", fill: "#101418" }), s("path", { d: "M12 8V15M12 17V20", stroke: "#FFD400", "stroke-width": 3, fill: "none" }));
}

const ARROWS = { left: 0, up: 90, right: 180, down: 270, "up-right": 135, "up-left": 45 };

/** Through the wall, as drawings of fields and currents have it: a point comes towards the one who looks, from outside, so
 *  it is out; crossed feathers go away, in. Round (x, y) in a circle of radius r. */
export function through(way, x, y, r) {
  const d = r * 0.7071;
  return [s("circle", { class: "sign", cx: x, cy: y, r, fill: "none", stroke: "currentColor", "stroke-width": r / 5 }),
    way === "out" ? s("circle", { class: "sign", cx: x, cy: y, r: r * 0.36, fill: "currentColor", stroke: "none" })
      : s("path", { class: "sign", d: `M${x - d} ${y - d}L${x + d} ${y + d}M${x - d} ${y + d}L${x + d} ${y - d}`, fill: "none", stroke: "currentColor", "stroke-width": r / 5 })];
}

/** A filled arrow, shaft 6 and head 20, for a direction that a word names too; "in" and "out" have signs of their own. */
export function arrow(way, width = 36) {
  if (!(way in ARROWS)) return s("svg", { class: `arrow ${way}`, width, height: width, viewBox: "0 0 36 36", "aria-hidden": "true", focusable: "false" }, through(way, 18, 18, 15));
  return s("svg", { class: "arrow", width, height: width, viewBox: "0 0 36 36", "aria-hidden": "true", focusable: "false" },
    s("path", { d: "M1 18L20 8V15H35V21H20V28Z", fill: "currentColor", transform: `rotate(${ARROWS[way]} 18 18)` }));
}
