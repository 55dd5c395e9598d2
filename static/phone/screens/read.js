// The number screen: a figure typed as it is called out. A level has two lines, as it lies and turned end for end.
import { hasScreen, leftKey, naming, nextField, otherDiagonal, readHash, shut } from "../flow.js";
import { feedOf, fieldOf, noPlan, stepOf } from "../look.js";
import { keepFigure } from "../read_keep.js";
import { readView } from "../read_view.js";
import { say } from "../words.js";

const LEVEL = /^(plumb|lean|level)_/;

// What the screen needs to know of its field.
function subject(ctx) {
  const step = stepOf(ctx, ctx.at.step);
  const field = fieldOf(step, ctx.at.field);
  const feed = feedOf(field);
  const sheet = feed && ctx.sheet(feed.sheet);
  const reading = sheet?.kind === "linear" ? sheet.readings?.[feed.as] : sheet?.inputs?.find((input) => input.name === feed?.as);
  return { step, field, feed, sheet, reading, key: `read/${ctx.at.unit}/${ctx.at.step}/${ctx.at.field}`,
    level: field?.type === "length" && Boolean(field.level ?? (sheet?.kind === "linear" && LEVEL.test(feed.as))) };
}

// Where a kept figure leads, and how the main action names it.
function onward(ctx, { step, field }) {
  const frame = ctx.at.from === "frame";
  const next = frame ? otherDiagonal(ctx, step, field)?.field : nextField(ctx, step, [field.id]);
  if (next && frame) return { go: readHash(ctx, step, next, "frame"), say: say("keep_next", { say: say("the_other") }) };
  if (next && hasScreen(next)) return { go: readHash(ctx, step, next), say: naming("keep", next) };
  return frame ? { go: `#unit/${ctx.unit.id}/frame`, say: say("keep_next", { say: say("the_answer") }) } : { go: `#unit/${ctx.unit.id}/step/${step.id}`, say: say("keep_next", { say: say("the_step") }) };
}

export async function render(ctx) {
  if (!ctx.packet) return noPlan(ctx);
  const about = subject(ctx);
  if (!about.field) return noPlan(ctx);
  if (!["length", "number"].includes(about.field.type)) return (await import("./write.js")).render(ctx, about);
  const kept = await ctx.draft(about.key) ?? {};
  const view = readView(ctx, about, { unit: ctx.settings.show, lines: ["", ""], on: 0, ...kept });
  const back = ctx.at.from === "frame" ? `#unit/${ctx.unit.id}/frame` : `#unit/${ctx.unit.id}/step/${about.step.id}`;
  const next = onward(ctx, about);
  view.words = () => {
    const { on, lines } = view.typed;
    if (on === 2) return say("keep_level");
    if (about.level && on === 0) return say("keep_turn");
    if (about.level && on === 1 && !lines[1].trim()) return say("keep_one");
    return next.say;
  };
  const usual = about.field.type === "length" ? { say: view.unitKey(), label: "in / mm", class: "units-key", do: () => view.swapUnit(), back } : { say: say("all_fields"), go: back };
  return {
    title: about.field.ask ?? about.field.say, still: true, main: view.nodes, left: leftKey(ctx, usual),
    right: about.level ? { say: view.levelKey(), do: () => view.askLevel() } : undefined,
    action: { say: view.words(), do: () => keepFigure(ctx, about, view, next.go) },
    shut: () => { shut(); view.shut(); },
  };
}
