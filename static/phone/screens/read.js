// The number screen: a figure typed as it is called out. A level has two lines, as it lies and turned end for end.
import { hasScreen, leftKey, naming, nextField, otherDiagonal, readHash, shut } from "../flow.js";
import { fieldOf, noPlan, stepOf } from "../look.js";
import { fedBy } from "../read_check.js";
import { keepFigure } from "../read_keep.js";
import { readView } from "../read_view.js";
import { levelUntold } from "../ways.js";
import { say } from "../words.js";

const LEVEL = /^(plumb|lean|level)_/;
const LENGTH = 2;  // the view's line on which the level's own length is typed

// What the screen needs to know of its field.
function subject(ctx) {
  const step = stepOf(ctx, ctx.at.step);
  const field = fieldOf(step, ctx.at.field);
  if (!field) return { step, field };
  const { feed, sheet, reading } = fedBy(ctx, field);
  return { step, field, feed, sheet, reading, key: `read/${ctx.at.unit}/${ctx.at.step}/${ctx.at.field}`,
    level: field?.type === "length" && Boolean(field.level ?? (sheet?.kind === "linear" && LEVEL.test(feed.as))) };
}

// Whether words fill at most three lines of the main action, which two side keys leave some twelve letters a line.
function fits(words) {
  const lines = words.split(" ").reduce(([last, ...rest], word) => (`${last} ${word}`.trim().length <= 12 ? [`${last} ${word}`.trim(), ...rest] : [word, last, ...rest]), [""]);
  return lines.length <= 3;
}

// Where a kept figure leads, and how the main action names it.
function onward(ctx, { step, field }) {
  const frame = ctx.at.from === "frame";
  const next = frame ? otherDiagonal(ctx, step, field)?.field : nextField(ctx, step, [field.id]);
  if (next && frame) return { go: readHash(ctx, step, next, "frame"), say: say("keep_next", { say: say("the_other") }) };
  if (next && hasScreen(next)) return { go: readHash(ctx, step, next), say: fits(naming("keep", next)) ? naming("keep", next) : say("keep_long") };
  return frame ? { go: `#unit/${ctx.unit.id}/frame`, say: say("keep_next", { say: say("the_answer") }) } : { go: `#unit/${ctx.unit.id}/step/${step.id}`, say: say("keep_next", { say: say("the_step") }) };
}

export async function render(ctx) {
  if (!ctx.packet) return noPlan(ctx);
  const about = subject(ctx);
  if (!about.field) return noPlan(ctx);
  if (!["length", "number"].includes(about.field.type)) return (await import("./write.js")).render(ctx, about);
  const draft = await ctx.draft(about.key) ?? {};
  const kept = draft.lines?.some((line) => line.trim()) ? draft : { over: draft.over };  // a draft of nothing chooses no unit
  const view = readView(ctx, about, { unit: ctx.settings.show, lines: ["", ""], on: 0, ...kept });
  const back = ctx.at.from === "frame" ? `#unit/${ctx.unit.id}/frame` : `#unit/${ctx.unit.id}/step/${about.step.id}`;
  const next = onward(ctx, about);
  view.words = () => {
    const { on, lines } = view.typed;
    if (on === LENGTH) return say("keep_level");
    if (about.level && on === 0) return say("keep_turn");
    if (about.level && on === 1 && !lines[1].trim()) return say("keep_one");
    return next.say;
  };
  // beside the way back: in or mm; where a level is read, its length, whose own screen has in or mm
  view.keys = () => {
    const units = about.field.type === "length" && { say: view.unitKey(), label: "in / mm", class: "units-key", do: () => view.swapUnit() };
    const inLevel = view.typed.on === LENGTH;
    return {
      left: inLevel && !levelUntold(ctx, about) ? { say: say("back"), do: () => view.fromLevel() } : leftKey(ctx, { say: say(ctx.at.from === "frame" ? "back" : "all_fields"), go: back }),
      right: about.level && !inLevel ? { say: view.levelKey(), do: () => view.askLevel() } : units || undefined,
      action: { say: view.words(), do: () => keepFigure(ctx, about, view, next.go) },
    };
  };
  return {
    title: about.field.ask ?? about.field.say, still: true, main: view.nodes, ...view.keys(),
    shut: () => { shut(); view.shut(); },
  };
}
