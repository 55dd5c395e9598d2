// What the frame's screens share: names of judged quantities in groups, figures with their way, the geometry in a sheet.
import { lengthText, readingText } from "./dim.js";
import { h } from "./dom.js";
import { byId, feeding } from "./look.js";
import { stateLine } from "./shapes.js";
import { wayOf, waysOf } from "./ways.js";
import { known, say } from "./words.js";

const WORST = ["outside", "too close to call", "inside", "not known"];
const GROUP = { square_head: "square", square_sill: "square", plumb_left: "plumb", plumb_right: "plumb" };

/** Verdict of a judged item as it is shown: not known where its doubt is wider than its tolerance, unless outside. */
export const shownVerdict = (item) => (item.verdict !== "outside" && item.u > item.tolerance ? "not known" : item.verdict);

/** "2.2 mm right": a figure with its way, in the reader's unit. */
export function withWay(ctx, what, mm) {
  const text = lengthText(mm * 1e6, ctx.settings.show);
  const way = /^0(?![\d.,/])/.test(text) ? null : wayOf(what, mm);  // nought has no direction
  return `${text}${way ? ` ${way.word}` : ""}`;
}

/** A judged quantity's whole name: that of the plan's field which reads it, else the sheet's own. The office has the same. */
export function longName(ctx, sheet, what) {
  const field = feeding(ctx, sheet.name, what)?.field;
  return (field?.short ?? field?.say ?? sheet.judged.find((j) => j.what === what)?.say ?? what.replace(/[._]/g, " ")).replace(/^./, (c) => c.toUpperCase());
}

/** The box's tilt that an answer took into account, in words: [text]. */
export function tiltSay(ctx, { sheet, given }) {
  const { along = 0, through = 0, over } = given.tilt ?? {};
  const side = (kind) => sheet.readings[kind]?.constant ?? 0;
  return [["along", along, side("width_sill")], ["through", through, side("height_left")]].filter(([, mm]) => over && mm)
    .map(([way, mm, length]) => say(`tilt_${way}`, { x: withWay(ctx, `tilt.${way}`, mm / over * length) }));
}

const shortName = (what) => (known(`what.${what}`) ? say(`what.${what}`) : what);

// "square: head 2.2 mm right, sill; twist"
function names(ctx, items, figures) {
  const groups = new Map();
  for (const item of items) {
    const group = GROUP[item.what] ?? item.what;
    groups.set(group, [...(groups.get(group) ?? []), `${shortName(item.what)}${figures ? ` ${withWay(ctx, item.what, item.estimate)}` : ""}`]);
  }
  return [...groups].map(([group, whats]) => (known(`group.${group}`) ? `${say(`group.${group}`)}: ${whats.join(", ")}` : whats.join(", "))).join("; ");
}

/** Verdicts grouped: the word once, then the names; figures where it matters. */
export function verdictGroups(ctx, judged) {
  return h("div", { class: "judged" }, WORST.map((is) => [is, judged.filter((item) => shownVerdict(item) === is)]).filter(([, items]) => items.length)
    .map(([is, items]) => h("div", null, stateLine(is, null, { flipped: is === "outside" && items.every((item) => item.estimate < 0) }),
      h("p", null, names(ctx, items, is === "outside" || is === "too close to call")))));
}

/** Width, height and hinge of a frame's sheet. A left hinge has the sill's length count for plumb of the left jamb. */
export function geometry(sheet) {
  const square = sheet.judged.find((j) => j.what === "square_head");
  return { width: sheet.readings.width_sill.constant, height: sheet.readings.height_left.constant, hinge: (square?.row.ws ?? 1) > 0 ? "left" : "right" };
}

/** The field of a reading's kind and its text, with its way: "88 13/16 in", "0.8 mm top left". */
export function readingSay(ctx, id, field) {
  const entry = byId(ctx.entries).get(id);
  if (!entry) return "";
  const ways = field && waysOf(field);
  return `${readingText(entry)}${ways && entry.value.nm ? ` ${ways[entry.value.nm < 0 ? 0 : 1].word}` : ""}`;
}
