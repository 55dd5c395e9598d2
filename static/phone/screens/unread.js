// What cannot be read: the reason, and where the step needs the reading, a concession asked for with it.
import { h } from "../dom.js";
import { naming, nextField, readHash, replacing } from "../flow.js";
import { fieldOf, noPlan, stepOf } from "../look.js";
import { roundOfField } from "../answers.js";
import { keepAsk } from "./ask.js";
import { say } from "../words.js";

const REASONS = ["binds", "no_access", "no_tool"];

export function render(ctx) {
  const step = ctx.packet && stepOf(ctx, ctx.at.step);
  const field = fieldOf(step, ctx.at.field);
  if (!field) return noPlan(ctx);
  const round = roundOfField(ctx, field);
  const stands = replacing(ctx, step, field, round);
  const next = nextField(ctx, step, [field.id]);
  const to = next ? readHash(ctx, step, next) : `#unit/${ctx.unit.id}/step/${step.id}`;
  // what stood is taken back; a reading that the step needs is asked a concession for, any other leaves a note
  const keep = async (because) => {
    if (stands.length && !await ctx.keep([ctx.make("retract", { because }, { step: step.id, field: field.id, round, replaces: stands })])) return;
    const words = say("not_read_note", { say: field.say, why: because });
    const done = field.required && step.concession !== false ? await keepAsk(ctx, step, words) : await ctx.keep([ctx.make("note", { text: words }, { step: step.id })]);
    if (done) ctx.go(["tick", "choice"].includes(next?.type) ? `#unit/${ctx.unit.id}/step/${step.id}` : to);
  };
  const key = (id, words, press) => h("button", { type: "button", class: "key", id: `why-${id}`, onclick: press }, words);
  return {
    title: say("why_not_read"), overline: field.say,
    main: [stands.length ? h("p", null, say("taken_with")) : null, field.required ? h("p", null, say(step.concession === false ? "needed_never" : "needed_ask")) : null, h("div", { class: "push" }),
      h("div", { class: "choices" }, REASONS.map((id) => key(id, say(id), () => keep(say(id)))), key("other", say("other_why"), () => ctx.go(`#unit/${ctx.unit.id}/${field.required && step.concession !== false ? "ask" : "note"}/${step.id}`)))],
    action: { say: naming("read", field), go: readHash(ctx, step, field) },
  };
}
