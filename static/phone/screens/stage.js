// All the steps of a stage: in any order, but none past a hold point that is shut.
import { h } from "../dom.js";
import { finished, goOn, hashOf, noPlan, opens, placeOf, present, stages, stepState, untouched } from "../look.js";
import { stateLine } from "../shapes.js";
import { problems } from "../steps.js";
import { say } from "../words.js";

function row(ctx, step) {
  const st = stepState(ctx, step.id);
  const shut = !opens(ctx, step);
  const odd = problems(ctx, [step]);
  const lines = [
    h("span", { class: "name" }, `${placeOf(ctx, step).n} ${step.say}`),
    odd.length ? odd.map(({ is, what }) => h("span", { class: "small" }, stateLine(is, what.join(", ")))) : null,
    ["done", "passed"].includes(st.is) && !odd.length ? h("span", { class: "small" }, untouched(ctx, step) ? say("optional") : stateLine(st.is)) : null,
    step.hold ? h("span", { class: "small" }, st.hold ? stateLine(st.hold) : stateLine("not released")) : null,
    st.is === "open" && !odd.length && !shut ? h("span", { class: "small" }, open(st, step)) : null,
  ];
  return h("li", { class: present(ctx)?.id === step.id ? "now" : null }, shut ? h("div", { class: "row pencil" }, lines)
    : h("a", { class: "row", href: hashOf(ctx, step) }, lines));
}

// how much of an open step is there
function open(st, step) {
  const required = step.fields.filter((field) => field.required).length;
  return st.missing.length && st.missing.length < required ? say("stage_open", { n: required - st.missing.length, of: required }) : say("is.open");
}

export function render(ctx) {
  if (!ctx.packet) return noPlan(ctx);
  const all = stages(ctx);
  const stage = all.find((one) => one.id === ctx.at.stage) ?? all[0];
  const unit = `#unit/${ctx.unit.id}`;
  const stopped = stage.steps.some((step) => !opens(ctx, step));
  const aside = stage.steps.every((step) => step.signed === false) && stage.steps.find((step) => !finished(ctx, step));
  return {
    title: stage.say, overline: say("steps", { n: stage.steps.length }),
    main: [stopped ? h("p", { class: "strong" }, say("shut_here")) : null, h("ol", { class: "rows" }, stage.steps.map((step) => row(ctx, step)))],
    left: { say: say("all_stages"), go: unit },
    action: aside ? goOn(ctx, aside) : goOn(ctx),
  };
}
