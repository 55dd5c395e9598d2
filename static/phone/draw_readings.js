// The frame with every reading of this round on its own dimension line. At the phone's width figures stand beside their lines.
import { readingText } from "./dim.js";
import { readingSay } from "./frame_look.js";
import { waysOf } from "./ways.js";
import { s } from "./shapes.js";
import { say } from "./words.js";

const [L, R, T, B, M] = [128, 216, 30, 206, 118];  // the frame's sides and its middle, px of a picture 344 wide
// kind → [the dimension line's ends, where the figure stands and how it is set]
const LINES = {
  width_head: [[L, T - 10, R, T - 10], [172, T - 16, "middle"]], width_sill: [[L, B + 12, R, B + 12], [172, B + 34, "middle"]], width_mid: [[L, M, R, M], [172, M - 5, "middle"]],
  height_left: [[L - 14, T, L - 14, B], [L - 22, 182, "end"]], height_right: [[R + 14, T, R + 14, B], [R + 22, 182, "start"]],
  diagonal_bl_tr: [[L, B, R, T], [R + 22, 158, "start"]], diagonal_tl_br: [[L, T, R, B], [L - 22, 158, "end"]],
};
// kind → where its name and figure stand, its way under them; the other kinds stand in the list alone
const NOTES = { plumb_left: [L - 22, T + 6, "end"], plumb_right: [R + 22, T + 6, "start"], lean_left: [L - 22, T + 66, "end"], lean_right: [R + 22, T + 66, "start"] };

const line = ([x1, y1, x2, y2]) => {
  const tick = (x, y) => `M${x - 5} ${y + 5}L${x + 5} ${y - 5}`;
  return s("path", { class: "ink", "stroke-width": 2, d: `M${x1} ${y1}L${x2} ${y2}${tick(x1, y1)}${tick(x2, y2)}` });
};

/** The drawing of `read` = [{kind, field, now: entries}]; null while nothing that has a place is read. */
export function drawReadings(ctx, sheet, read) {
  const placed = read.filter(({ kind }) => LINES[kind] || NOTES[kind]);
  if (!placed.length) return null;
  const place = (one) => LINES[one.kind]?.[1] ?? NOTES[one.kind];
  const words = (one) => {
    const entry = one.now.at(-1);
    const figure = readingText(entry);
    if (!NOTES[one.kind]) return [figure];
    const ways = waysOf(one.field);
    return [say(`mark.${one.kind.split("_")[0]}`), figure, entry.value.nm ? ways[entry.value.nm < 0 ? 0 : 1].word : ""];
  };
  return s("svg", { class: "drawing", viewBox: "0 0 344 246", role: "img", fill: "none", stroke: "currentColor" }, s("title", null, say("in_round")),
    s("desc", null, read.map((one) => `${one.field.say}: ${readingSay(ctx, one.now.at(-1).id, one.field)}`).join("; ")),
    s("path", { class: "pencil", "stroke-width": 2, "stroke-dasharray": "14 3 2 3 2 3", d: `M${L} ${B}V${T}H${R}V${B}Z` }),
    placed.filter(({ kind }) => LINES[kind]).map(({ kind }) => line(LINES[kind][0])),
    placed.flatMap((one) => { const [x, y, anchor] = place(one); return words(one).map((text, i) => s("text", { class: "halo", x, y: y + 19 * i, "text-anchor": anchor }, text)); }));
}
