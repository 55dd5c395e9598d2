// Where we are: the unit's picture and facts, then the plumb line through its stages.
import { h, svg } from "../dom.js";
import { byId, goOn, noPlan, placeOf, personName, present, replacedIds, returned, stages, stepState, timeOf } from "../look.js";
import { lower } from "../flow.js";
import { s, stateLine } from "../shapes.js";
import { names, problems } from "../steps.js";
import { say } from "../words.js";

const bob = () => s("svg", { class: "bob", width: 28, height: 76, viewBox: "0 0 28 76", "aria-hidden": "true" },
  s("path", { d: "M14 0V8", stroke: "currentColor", "stroke-width": 4 }), s("path", { d: "M0 4H28V10H0ZM0 16H28V48L14 76L0 48Z", fill: "currentColor" }));

// The steps of a stage that are outside, too close or two accounts: a line each under its name.
function oddities(ctx, steps) {
  const found = new Map();
  for (const { is, what } of problems(ctx, steps)) found.set(is, new Set([...(found.get(is) ?? []), ...what]));
  return [...found].map(([is, what]) => h("span", { class: "small" }, stateLine(is, [...what].map(lower).join("; "))));
}

function stageRow(ctx, stage, now) {
  const { is, steps } = stage;
  const held = steps.find((step) => step.hold && !stepState(ctx, step.id).hold);
  const place = held && placeOf(ctx, held);
  const lines = [h("span", { class: "name" }, stage.say)];
  if (is === "now") lines.push(h("span", null, say("step_n_of", { ...placeOf(ctx, now), say: now.say })));
  else lines.push(h("span", { class: "small" }, say("steps", { n: steps.length })));
  if (held) lines.push(h("span", { class: "small" }, stateLine("not released", say("at_step", { n: place.n }))));
  return h("li", { class: is }, is === "now" ? bob() : null, h("a", { class: "row", href: `#unit/${ctx.unit.id}/stage/${stage.id}` }, lines, oddities(ctx, steps)));
}

// Done stages stand in one row that keeps what is outside or too close.
function doneRow(ctx, done) {
  const folded = h("ol", { class: "line" }, done.map((stage) => h("li", { class: "done" }, h("a", { class: "row", href: `#unit/${ctx.unit.id}/stage/${stage.id}` }, h("span", { class: "name" }, stage.say)))));
  return h("li", { class: "done" }, h("details", null,
    h("summary", { class: "row" }, h("b", { class: "name" }, say("stages_done", { n: done.length })), oddities(ctx, done.flatMap((stage) => stage.steps))), folded));
}

function line(ctx) {
  const now = present(ctx);
  const all = stages(ctx).map((stage) => ({ ...stage, recheck: stage.steps.every((step) => step.signed === false) }));
  const at = now ? all.findIndex((stage) => stage.id === now.stage) : all.length;
  const done = all.slice(0, at).filter((stage) => !stage.recheck);
  const ahead = all.slice(at).filter((stage) => !stage.recheck).map((stage, i) => ({ ...stage, is: i === 0 && now ? "now" : "ahead" }));
  const later = all.filter((stage) => stage.recheck).map((stage) => ({ ...stage, is: "ahead", say: say("re_check") }));
  return h("ol", { class: "line" }, done.length ? doneRow(ctx, done) : null, ahead.map((stage) => stageRow(ctx, stage, now)),
    h("li", { class: now ? "ahead" : "now" }, now ? null : bob(), h("a", { class: "row", href: `#unit/${ctx.unit.id}/sign` }, h("span", { class: "name" }, say("sign_row")), signState(ctx))),
    later.map((stage) => stageRow(ctx, stage, null)));
}

// Who signed, and what became of it.
function signState(ctx) {
  return (ctx.state.signoffs ?? []).map((signoff) => {
    const entry = byId(ctx.entries).get(signoff.id);
    const review = signoff.review && byId(ctx.entries).get(signoff.review.id);
    return [h("span", { class: "small" }, stateLine(signoff.is, entry ? personName(ctx, entry.person) : "", signoff.is === "waiting" ? { word: say("is.waiting", { n: signoff.missing }) } : {})),
      review ? h("span", { class: "small" }, say(signoff.review.is === "returned" ? "returned" : "accepted", { why: review.value.because, who: personName(ctx, review.person) })) : null,
      review && signoff.review.is === "returned" && signoff.is !== "stale" ? h("span", { class: "small" }, say("nothing_new")) : null];
  });
}

function planRow(ctx) {
  if (!ctx.fresh) return null;
  const lines = [say("new_plan", { time: timeOf(ctx.fresh.since), changed: ctx.fresh.changed.join("; ") })];
  return h("div", { class: "alert", role: "alert" }, h("p", null, lines),
    h("button", { type: "button", class: "key", onclick: async () => { await ctx.takePlan(); ctx.again(); } }, say("take_plan")));
}

function picture(ctx) {
  const drawing = ctx.drawings.find((d) => d.id === "unit");
  return drawing ? svg(drawing.svg) : h("span");
}

// What may be done next, as the main action: a step, the hold point before it, or signing.
function mainAction(ctx) {
  const now = present(ctx);
  const signed = ctx.state.signoffs.length === 1 && ["complete", "waiting"].includes(ctx.state.signoffs[0].is) && ctx.state.signoffs[0].review?.is !== "returned";
  if (!now && returned(ctx)) return goOn(ctx);
  if (!now && signed) return { say: say("open_other"), go: "#open" };
  if (!now) return { say: say(names(ctx).length ? "look_sign" : "all_done"), go: `#unit/${ctx.unit.id}/sign` };
  return goOn(ctx, now);
}

export function render(ctx) {
  if (!ctx.unit) return { title: say("no_unit"), main: [h("p", null, say("no_unit_say"))], left: { say: say("units"), go: "#open" }, action: { say: say("units"), go: "#open" } };
  if (!ctx.packet) return noPlan(ctx);
  return {
    title: say("unit", { n: ctx.unit.number }), head: picture(ctx),
    main: [h("div", { class: "unit-facts" }, (ctx.packet.facts ?? []).map((fact) => h("p", null, fact))), planRow(ctx), line(ctx),
      h("a", { class: "row linked", href: `/units/${ctx.unit.id}/work${ctx.settings.show === "in" ? "?show=in" : ""}` }, h("span", { class: "name" }, say("work_out")), h("span", { class: "small" }, say("wants_signal")))],
    left: { say: say("other_unit"), go: "#open" }, right: { say: say("phone"), go: "#phone" }, action: mainAction(ctx),
  };
}
