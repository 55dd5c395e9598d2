// Asking for a concession: the step's standing entries and why it should stay, or why it cannot be read.
import { h } from "../dom.js";
import { stepStanding } from "../fold.js";
import { noPlan, standingKind, stepOf, stepState } from "../look.js";
import { problems } from "../steps.js";
import { outsideLines } from "../step_answers.js";
import { stateLine } from "../shapes.js";
import { say } from "../words.js";

/** Keeps an `ask` on a step; it takes the place of one that stands. */
export const keepAsk = (ctx, step, because) => ctx.keep([ctx.make("ask", { covers: stepStanding(ctx.entries, ctx.packet, step.id), because },
  { step: step.id, replaces: standingKind(ctx, "ask", step.id).map((e) => e.id).sort() })]);

export async function render(ctx) {
  const step = ctx.packet && stepOf(ctx, ctx.at.step);
  if (!step) return noPlan(ctx);
  const to = `#unit/${ctx.unit.id}/step/${step.id}`;
  if (step.concession === false) return { title: say("ask_title"), overline: step.say, main: [h("p", { class: "strong" }, say("never_conceded"))], action: { say: say("back_step"), go: to } };
  const key = `ask/${ctx.unit.id}/${step.id}`;
  let timer = 0;
  const area = h("textarea", { id: "because", rows: 4, maxlength: 3900, value: await ctx.draft(key) ?? "", "aria-label": say("ask_why"), oninput: () => { clearTimeout(timer); timer = setTimeout(() => ctx.draft(key, area.value), 300); } });
  const keep = async () => {
    if (!area.value.trim()) return ctx.say(say("say_why"));
    clearTimeout(timer);
    if (!await keepAsk(ctx, step, area.value.trim())) return null;
    await ctx.draft(key, null).catch(() => null);
    return ctx.go(to);
  };
  const missing = stepState(ctx, step.id).missing.map((id) => step.fields.find((f) => f.id === id)?.say ?? id);
  return {
    title: say("ask_title"), overline: step.say, still: true,
    main: [problems(ctx, [step]).map(({ is, what }) => h("p", null, stateLine(is, what.join(", ")))), outsideLines(ctx, step).map((text) => h("p", { class: "strong" }, text)), missing.length ? h("p", null, stateLine("not read", missing.join(", "))) : null,
      h("p", null, say("ask_why")), h("div", { class: "push" }), area],
    left: { say: say("back"), go: to }, action: { say: say("ask_keep"), do: keep }, shut: () => clearTimeout(timer),
  };
}
