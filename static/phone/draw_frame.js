// The frame as read over the frame as planned, faults exaggerated, with an arrow where the hand goes for each move and how
// far, and the frame as the moves should leave it.
import { say as sayLength } from "./lengths.js";
import { s, through } from "./shapes.js";
import { say } from "./words.js";
import { geometry, shownVerdict } from "./frame_look.js";

const FACTORS = [100, 50, 30, 20, 10];
const [WIDE, HIGH, LEFT, TOP] = [164, 234, 46, 48];  // the picture, and where the planned frame's top left corner stands
const KEY = 30;                                      // what the lines mean stands below, where there is a frame after the moves
const DRAWN = 72;                                    // the planned frame's width in the picture

// Where each corner stands off the plan, mm, from what is known of the frame.
function faults(judged, { width, height, hinge }) {
  const known = (what) => { const item = judged.find((j) => j.what === what); return item && shownVerdict(item) !== "not known" ? item.estimate : 0; };
  const [left, right] = [known("plumb_left"), known("plumb_right")];
  const across = (hinge === "left" ? left : right) * width / height;
  const slope = (what) => (known(what) ? known(what) - across : 0);
  return { left, right, sill: slope("square_sill"), head: slope("square_head"), bow: known("align_mid") };
}

/** How many times the faults are drawn: the largest about a tenth of the picture's width, rounded down to a known figure. */
export function factorFor(off, scale) {
  const most = Math.max(0.05, ...Object.values(off).map(Math.abs)) * scale;
  return FACTORS.find((factor) => factor * most <= WIDE / 10) ?? 10;
}

// [x, y, way]: the middle of each move's arrow
function places(p) {
  const [mid, low] = [(p.tl[1] + p.bl[1]) / 2, p.bl[1] - 22];
  const head = (p.tl[0] + p.tr[0]) / 2;
  return {
    raise_bl: [[p.bl[0] - 20, low, "up"]], raise_br: [[p.br[0] + 20, low, "up"]], lower_bl: [[p.bl[0] - 20, low, "down"]], lower_br: [[p.br[0] + 20, low, "down"]],
    push_head_left: [[head, p.tl[1] - 20, "left"]], push_head_right: [[head, p.tl[1] - 20, "right"]], head_out: [[head, p.tl[1] + 36, "out"]], head_in: [[head, p.tl[1] + 36, "in"]],
    twist_left_out: [[p.tl[0] - 20, p.tl[1] + 28, "out"]], twist_left_in: [[p.tl[0] - 20, p.tl[1] + 28, "in"]],
    twist_right_out: [[p.tr[0] + 20, p.tr[1] + 28, "out"]], twist_right_in: [[p.tr[0] + 20, p.tr[1] + 28, "in"]],
    spread_mid: [[p.bl[0] - 20, mid, "left"], [p.br[0] + 20, mid, "right"]], close_mid: [[p.bl[0] - 20, mid, "right"], [p.br[0] + 20, mid, "left"]],
  };
}

const ARROW = "M-18 0L0 -10V-3H18V3H0V10Z";
const TURN = { left: 0, up: 90, right: 180, down: 270 };
const halfOf = (text) => text.length * 4.8 + 2;  // of 16 px figures, a little much
const keep = (x, half) => Math.min(Math.max(x, half), WIDE - half);

// Where an arrow stands, its number and how far: an upright one has the number beside its tail and the figure beyond its
// head, one over the head all in a row, one at the side of a jamb both above; a sign of in or out has its number above, its figure below.
function laid([x, y, way], far) {
  const half = halfOf(far);
  if (!(way in TURN)) return { x: keep(x, 14), number: [keep(x, 14), y - 23], far: [keep(x, half), y + 28] };
  if (TURN[way] % 180) {
    const out = x > WIDE / 2 ? 17.5 : -17.5;
    return { x, number: [x + out === keep(x + out, 8.5) ? x + out : x - out, y + (way === "up" ? 12 : -12)], far: [keep(x, half), y + (way === "up" ? -23 : 35)] };
  }
  if (y > TOP + 4) return { x: keep(x, 19), number: [9, y - 20], far: [18 + half, y - 14] };
  const [turn, from] = [way === "right" ? -1 : 1, keep(x, 30 + half) - (way === "right" ? -1 : 1) * (30 + half)];
  return { x: from + turn * 18, number: [from + turn * 48, y], far: [from + turn * (60 + half), y + 6] };
}

function arrow(place, label, made, far) {
  const at = label ? laid(place, far) : { x: keep(place[0], 19) };
  const sign = place[2] in TURN ? s("path", { class: made ? "hair" : "chalk", fill: made ? "none" : "currentColor", stroke: made ? "currentColor" : "none", "stroke-width": 1.5,
    d: ARROW, transform: `translate(${at.x} ${place[1]}) rotate(${TURN[place[2]]})` })
    : s("g", { class: made ? "hair" : "chalk" }, through(place[2], at.x, place[1], 13));
  return s("g", null, sign,
  label ? [s("circle", { class: "chalk", cx: at.number[0], cy: at.number[1], r: 8.5, fill: "currentColor", stroke: "none" }),
    s("text", { x: at.number[0], y: at.number[1] + 5.5, class: "paper", "text-anchor": "middle" }, label),
    s("text", { x: at.far[0], y: at.far[1], class: "chalk halo", "text-anchor": "middle" }, far)] : null);
}

/** The way of a move's own arrow in the list: a name of shapes.js. */
export const moveWay = (move) => (places({ tl: [0, 0], tr: [0, 0], bl: [0, 0], br: [0, 0] })[move]?.[0][2] ?? "up");

// Corners and middles of a frame with these faults, all round.
function outline(off, w, t, at) {
  return [at(0, 0), at(0, t / 2, off.left / 2 - off.bow / 2), at(0, t, off.left), at(w, t, off.right, off.head), at(w, t / 2, off.right / 2 + off.bow / 2), at(w, 0, 0, off.sill)];
}

const short = (move, show) => sayLength(move.by, show).replace(/\u00A0(mm|in)$/, "");

// For a screen reader: what is drawn, then each move by its number.
function described(factor, moves, shut) {
  const lines = moves.map((move, i) => `${i + 1}: ${move.say ?? move.do}${move.made ? `, ${say("made")}` : ""}`);
  return [say("plan_picture", { n: factor }), shut ? null : say("after_picture"), ...lines].filter(Boolean).join(" ");
}

/** The drawing: `judged` as answered, `moves` [{do, made, by, say}] in order; `after` as answered while any is to be made. */
export function drawFrame(sheet, judged, moves, { after = null, show = "mm" } = {}) {
  const size = geometry(sheet);
  const scale = DRAWN / size.width;
  const [w, t] = [DRAWN, Math.min(size.height * scale, 164)];
  const off = faults(judged, size);
  const factor = factorFor(off, scale);
  const k = factor * scale;
  const at = (x, z, dx = 0, dz = 0) => [LEFT + x + dx * k, TOP + t - z - dz * k].map((n) => Math.round(n * 10) / 10);
  const p = { bl: at(0, 0), br: at(w, 0, 0, off.sill), tl: at(0, t, off.left), tr: at(w, t, off.right, off.head) };
  const then = after && moves.some((move) => !move.made) ? faults(judged.map((item) => ({ ...item, estimate: (after.find((one) => one.what === item.what) ?? item).estimate })), size) : null;
  const path = (points, shut = true) => `M${points.map((point) => point.join(" ")).join("L")}${shut ? "Z" : ""}`;
  const floor = TOP + t + 3;
  const hinge = (z) => { const x = size.hinge === "left" ? 0 : w; const lean = (size.hinge === "left" ? off.left : off.right) * z; return s("path", { class: "ink", "stroke-width": 6, d: path([at(x, z * t - 5, lean), at(x, z * t + 5, lean)], false) }); };
  const latch = size.hinge === "left" ? w : 0;
  const arrows = moves.flatMap(({ do: what, made, by }, i) => (places(p)[what] ?? []).map((place, n) => arrow(place, n ? null : String(i + 1), made, by === undefined ? "" : short({ by }, show))));
  return s("svg", { class: "drawing", viewBox: `0 0 ${WIDE} ${HIGH + (then ? KEY : 0)}`, role: "img", fill: "none", stroke: "currentColor" },
    s("title", null, say("drawn", { n: factor })), s("desc", null, described(factor, moves, !then)),
    s("text", { x: 0, y: 13, class: "pencil" }, say("drawn", { n: factor })),
    s("path", { class: "hair", "stroke-width": 1.5, "stroke-dasharray": "4 4", d: path([at(latch, t), at(w - latch, t / 2), at(latch, 0)], false) }),
    s("path", { class: "pencil", "stroke-width": 2, "stroke-dasharray": "14 3 2 3 2 3", d: path([at(0, 0), at(0, t), at(w, t), at(w, 0)]) }),
    s("path", { class: "ink", "stroke-width": 5, "stroke-linejoin": "round", d: path(outline(off, w, t, at)) }), hinge(0.18), hinge(0.82),
    s("path", { class: "ink", "stroke-width": 3, d: `M2 ${floor}H${WIDE - 2}` }), s("path", { class: "hatch", "stroke-width": 1.5, d: [...Array(9).keys()].map((i) => `M${14 + i * 17} ${floor + 2}l-8 8`).join("") }),
    then ? [s("path", { class: "chalk", "stroke-width": 2, d: path(outline(then, w, t, at)) }), s("path", { class: "chalk", "stroke-width": 2, d: `M2 ${HIGH + 16}h24` }),
      s("text", { x: 30, y: HIGH + 22, class: "chalk" }, say("after_line")), s("g", { transform: `translate(${WIDE - 56} ${HIGH + 16}) scale(0.7)` }, s("path", { class: "chalk", fill: "currentColor", stroke: "none", d: ARROW })),
      s("text", { x: WIDE - 2, y: HIGH + 22, class: "chalk", "text-anchor": "end" }, show)] : null,
    arrows);
}
