// A note on a step; after "Not done" it says why.
import { h } from "../dom.js";
import { fieldOf, noPlan, stepOf } from "../look.js";
import { say } from "../words.js";

export async function render(ctx) {
  const step = ctx.packet && stepOf(ctx, ctx.at.step);
  if (!step) return noPlan(ctx);
  const field = fieldOf(step, ctx.at.field);
  const key = `note/${ctx.unit.id}/${step.id}/${ctx.at.field ?? ""}`;
  const to = `#unit/${ctx.unit.id}/step/${step.id}`;
  let timer = 0;
  const area = h("textarea", { id: "note", rows: 4, maxlength: 3900, value: await ctx.draft(key) ?? "", "aria-label": say(field ? "why_not" : "note_what"),
    oninput: () => { clearTimeout(timer); timer = setTimeout(() => ctx.draft(key, area.value), 300); } });
  const keep = async () => {
    const text = area.value.trim();
    if (!text) return ctx.say(say(field ? "say_why" : "nothing_written"));
    clearTimeout(timer);
    const whole = field ? say("not_done_note", { say: field.say, why: text }) : text;
    if (!await ctx.keep([ctx.make("note", { text: whole }, { step: step.id })])) return null;
    await ctx.draft(key, null).catch(() => null);
    return ctx.go(to);
  };
  return {
    title: say(field ? "why_not" : "note_title"), overline: field ? field.say : step.say, still: true,
    main: [h("p", null, field ? field.wrong ?? say("why_not_say", { say: field.say }) : say("note_what")), h("div", { class: "push" }), area],
    left: { say: say("back"), go: to }, action: { say: say("note_keep"), do: keep }, shut: () => clearTimeout(timer),
  };
}
