// A hold point: a second pair of eyes, named here and now; the crow's foot gets a stroke a person.
import { cautions } from "../caution.js";
import { sha256 } from "../entry.js";
import { h } from "../dom.js";
import { answerOf, openRound } from "../answers.js";
import { offered, stepStanding } from "../fold.js";
import { frameOf, goOn, list, noPlan, opens, personName, placeOf, present, standingKind, stepOf, stepState } from "../look.js";
import { refusal } from "../flow.js";
import { verdictGroups } from "../frame_look.js";
import { stateLine } from "../shapes.js";
import { sheetSay } from "../step_answers.js";
import { problems } from "../steps.js";
import { say } from "../words.js";

let picked = null;  // {step, person}: who is said to have looked, until it is kept

// The frame's judged lines, where the step answers it: what she looks at stands here, with the way to the whole answer.
function seven(ctx, step) {
  const name = frameOf(ctx, step);
  const made = name && answerOf(ctx, name);
  return made ? [h("h2", null, say("seven_lines")), verdictGroups(ctx, made.answer.judged), h("a", { class: "row linked", href: `#unit/${ctx.unit.id}/frame/${name}` }, say("answer_of", { say: sheetSay(ctx, name) }))] : null;
}

const looks = (step) => (step.look?.length ? [h("h2", null, say("look_at")), h("ul", { class: "look" }, step.look.map((line) => h("li", null, line)))] : null);

async function release(ctx, step, second) {
  const covers = stepStanding(ctx.entries, ctx.packet, step.id);
  const before = standingKind(ctx, "release", step.id).map((e) => e.id).sort();
  const entry = ctx.make("release", { second, covers, sha256: await sha256([...covers].sort().join("\n")) }, { step: step.id, replaces: before });
  if (!await ctx.keep([entry])) return;
  picked = null;
  ctx.again();
}

async function confirm(ctx, step, release) {
  if (await ctx.keep([ctx.make("confirm", { of: release.id }, { step: step.id })])) ctx.again();
}

function people(ctx, step, seconds) {
  const here = ctx.packet.people.filter((person) => seconds.includes(person.id));
  if (!here.length) return h("p", { class: "strong" }, say("nobody"));
  const chosen = picked?.step === step.id ? picked.person : here.length === 1 ? here[0].id : null;
  return h("div", { class: "choices", role: "radiogroup", "aria-label": say("who_looked") }, h("h2", null, say("who_looked")),
    here.map((person) => h("button", { type: "button", role: "radio", class: "choice", id: `who-${person.id}`, "aria-checked": String(chosen === person.id),
      onclick: () => { picked = { step: step.id, person: person.id }; ctx.again(); } }, person.name)));
}

// What stands: the release with its strokes, and who said so.
function standing(ctx, step, st) {
  const last = standingKind(ctx, "release", step.id).at(-1);
  return last && st.hold ? h("p", { class: "large" }, stateLine(st.hold, say("is_stated", { who: personName(ctx, last.value.second) }))) : null;
}

// What keeps the hold point from being released: its own fields, or steps that come before.
function notYet(ctx, step, now) {
  const st = stepState(ctx, step.id);
  const own = [...st.missing, ...st.pairs].map((id) => step.fields.find((f) => f.id === id)?.say ?? id);
  const needs = now.needs.map((id) => stepOf(ctx, id)?.say ?? id);
  const odd = problems(ctx, [step]).filter(({ is }) => is !== "too close to call").flatMap(({ what }) => what);
  const what = [...new Set([...own, ...odd, ...needs])];
  return what.length ? what : [step.say];
}

export function render(ctx) {
  const step = ctx.packet && stepOf(ctx, ctx.at.step);
  if (!step || !opens(ctx, step)) return noPlan(ctx);
  const st = stepState(ctx, step.id);
  const unit = `#unit/${ctx.unit.id}`;
  const all = offered(ctx.entries, ctx.packet, ctx.parts, ctx.state, ctx.person.id);
  const now = all.steps[step.id];
  const mine = all.confirms.find((one) => one.step === step.id && one.second === ctx.person.id);
  const me = now.seconds.includes(ctx.person.id);
  const others = now.seconds.filter((id) => id !== ctx.person.id);
  const chosen = picked?.step === step.id ? picked.person : others.length === 1 ? others[0] : null;
  const base = { title: say("hold_title"), overline: say("step_of", placeOf(ctx, step)), left: { say: say("step_key"), go: `${unit}/step/${step.id}` }, right: { say: say("all_stages"), go: unit } };
  const top = [cautions(step.cautions), h("p", { class: "strong" }, step.say), standing(ctx, step, st) ?? h("p", { class: "large" }, stateLine("not released")), looks(step), seven(ctx, step)];
  if (mine) return { ...base, main: [...top, h("p", null, say("confirm_say", { who: personName(ctx, standingKind(ctx, "release", step.id).at(-1).person) }))], action: { say: say("i_looked"), do: () => confirm(ctx, step, { id: mine.release }) } };
  if (st.hold) {
    return { ...base, main: [...top, h("p", null, say("hold_open")), h("p", { class: "small" }, say("hold_sha"))], action: goOn(ctx) };
  }
  if (!now.release) {
    const frame = present(ctx) === step && step.fields.some((field) => st.outside.includes(field.id)) ? refusal(ctx, step)?.frame : null;
    return { ...base, main: [...top, h("p", { class: "strong" }, say("hold_first", { list: list(notYet(ctx, step, now)) }))], action: frame ? { say: say("frame_again"), do: () => openRound(ctx, frame, step) } : goOn(ctx) };
  }
  if (me) return { ...base, main: top, action: { say: say("i_looked"), do: () => release(ctx, step, ctx.person.id) } };
  return { ...base, main: [...top, people(ctx, step, others)], action: others.length === 0 ? { say: say("all_stages"), go: unit }
    : chosen ? { say: say("she_looked", { who: personName(ctx, chosen) }), do: () => release(ctx, step, chosen) } : { say: say("pick_who"), do: () => document.querySelector(".choices button")?.focus() } };
}
