// What was kept on a step, newest first: who, when, whether it stands, whether it is sent; what stands can be taken back.
import { h } from "../dom.js";
import { valueText } from "../field.js";
import { takeBack } from "../flow.js";
import { fieldOf, history, noPlan, personName, replacedIds, stepOf, timeOf } from "../look.js";
import { shape } from "../shapes.js";
import { say } from "../words.js";

async function row(ctx, field, entry, gone) {
  const { is, why } = await ctx.status(entry.id);
  const stands = !gone.has(entry.id) && entry.kind !== "retract";
  const state = entry.kind === "retract" ? null : say(stands ? "stands" : "replaced");
  return h("li", { class: "kept" }, h("p", { class: stands ? "strong" : "pencil" }, valueText(entry, field)),
    h("p", { class: "small" }, [say("by_at", { who: personName(ctx, entry.person), time: timeOf(entry.at) }), state].filter(Boolean).join(", ")),
    h("p", { class: "small state" }, shape(is), h("b", null, say(`is.${is}`)), why?.say ? ` ${why.say}` : null),
    stands ? h("button", { type: "button", class: "key", id: `back-${entry.id}`, onclick: () => takeBack(ctx, entry, say("taken_later")) }, say("take_back")) : null);
}

export async function render(ctx) {
  const step = ctx.packet && stepOf(ctx, ctx.at.step);
  if (!step) return noPlan(ctx);
  const gone = replacedIds(ctx);
  const fields = step.fields.map((field) => ({ field, all: history(ctx, step.id, field.id) })).filter(({ all }) => all.length);
  const to = `#unit/${ctx.unit.id}/step/${step.id}`;
  return {
    title: say("history_title"), overline: step.say,
    main: await Promise.all(fields.map(async ({ field, all }) => h("section", null, h("h2", null, fieldOf(step, field.id).say),
      h("ul", { class: "plain" }, await Promise.all([...all].reverse().map((entry) => row(ctx, field, entry, gone))))))),
    left: { say: say("back"), go: to }, action: { say: say("back_step"), go: to },
  };
}
