// One thing done right: cautions first and whole, purpose, drawing, fields, what a wrong reading means.
import { h, svg } from "../dom.js";
import { cautions } from "../caution.js";
import { fieldNodes, keepAnswer, rowTold } from "../field.js";
import { doing, hasScreen, leftKey, naming, nextField, readHash, refusal, shut, shown, visit } from "../flow.js";
import { barrier, feeding, feedOf, finished, goOn, hashOf, noPlan, notGranted, opens, placeOf, present, standing, standingKind, stepOf, stepState, personName, timeOf } from "../look.js";
import { answerRows, recorded } from "../step_answers.js";
import { answerOf, openRound } from "../answers.js";
import { say } from "../words.js";

const drawingsOf = (ctx, step) => ctx.drawings.filter((d) => (d.step === step.id || d.id === step.drawing) && !d.id.startsWith("read-")).map((d) => h("figure", null, svg(d.svg)));

// A container's number as it is painted: owner and category, serial, check digit.
const boxSay = (box) => box?.replace(/^([A-Z]{4})(\d{6})(\d)$/, "$1 $2 $3");

// The concessions granted on a step: those that let it pass, or, where it does not, those that hold no longer.
const granted = (ctx, step, passed) => ((stepState(ctx, step.id).is === "passed") === passed ? ctx.entries.filter((e) => e.kind === "review" && e.value.is === "concession" && e.step === step.id) : [])
  .map((e) => [say("conceded", { why: e.value.because }), e]);

// What the office answered to an ask, a concession or no: it says what is to be done, so it stands before the fields.
function answered(ctx, step) {
  const no = notGranted(ctx, step);
  return [...granted(ctx, step, true), ...(no ? [[no.value.text, no]] : [])]
    .map(([text, e]) => h("p", { class: "alert" }, h("b", null, text), ` ${by(ctx, e)}`));
}

// Notes and asks that stand on the step, newest first.
function remarks(ctx, step) {
  const asks = [...granted(ctx, step, false), ...standingKind(ctx, "ask", step.id).map((e) => [say("asked", { why: e.value.because }), e])]
    .map(([text, e]) => h("p", null, h("b", null, text), ` ${by(ctx, e)}`));
  const notes = standingKind(ctx, "note", step.id).filter((e) => !e.field && e !== notGranted(ctx, step)).map((e) => h("p", null, `${e.value.text} `, h("span", { class: "small" }, by(ctx, e))));
  return [...asks, ...notes.reverse()];
}
const by = (ctx, entry) => say("by_at", { who: personName(ctx, entry.person), time: timeOf(entry.at) });

// The step after this one, or the next stage's first; null at the end. From a step that holds the work up, or waits for
// the office, to the next that is not finished: nobody walks again through what is done.
function following(ctx, step) {
  const later = ctx.packet.steps.slice(ctx.packet.steps.indexOf(step) + 1);
  return (present(ctx) === step || stepState(ctx, step.id).is === "outside" ? later.find((one) => one.signed === false || !finished(ctx, one)) : later[0]) ?? null;
}
const before = (ctx, step) => ctx.packet.steps[ctx.packet.steps.indexOf(step) - 1] ?? null;

// Whether it was said of a field that it cannot be read: then other readings have to do.
const cannot = (ctx, step, field) => standingKind(ctx, "note", step.id).some((e) => e.value.text.startsWith(say("not_read_note", { say: field.say, why: "" })));

// The sheet with corrections that has something to say about this step.
function advice(ctx, step) {
  for (const { sheet, judged } of step.answers ?? []) {
    const made = ctx.sheet(sheet)?.corrections ? answerOf(ctx, sheet) : null;
    if (!made) {
      if (ctx.sheet(sheet) && !ctx.sheet(sheet).corrections && judged.some((what) => !(ctx.state.sheets[sheet]?.verdicts?.[what]) || ctx.state.sheets[sheet].verdicts[what] === "not known")) return { sheet, moves: 0, to: "sheet" };
      continue;
    }
    const here = made.answer.judged.filter((j) => judged.includes(j.what));
    const own = step.fields.find((field) => feedOf(field, sheet));
    if (judged.includes(feedOf(own, sheet)?.as) && !standing(ctx, step.id, own.id).length && !cannot(ctx, step, own)) return { read: own };
    const unread = !made.given.rounds?.some((round) => round.readings.length);
    if (made.answer.corrections.length && here.some((j) => j.verdict !== "inside")) return { sheet, moves: made.answer.corrections.length };
    if (unread) return { sheet, words: "read_frame" };
    // outside, and what moves it must be read first
    if (here.some((j) => j.verdict === "outside") && made.answer.next && feeding(ctx, sheet, made.answer.next.of)) return { sheet, moves: 0 };
    if (stepState(ctx, step.id).is === "open") return { sheet, moves: 0 };
  }
  return null;
}

function action(ctx, step) {
  const st = stepState(ctx, step.id);
  const unit = `#unit/${ctx.unit.id}`;
  if (st.pairs.length) return { say: say("settle_first"), do: () => jump(st.pairs[0]) };
  const next = nextField(ctx, step);
  if (next) {
    const row = rowTold(ctx, step, next)?.row;
    if (row) return { say: say("use_row", { row }), do: async () => { if (await keepAnswer(ctx, step, next, "choice", { chosen: row }, row)) ctx.again(); } };
    const words = naming(doing(next), next);
    return hasScreen(next) ? { say: words, go: readHash(ctx, step, next) } : { say: words, do: () => jump(next.id) };
  }
  const told = advice(ctx, step);
  if (told?.read) return { say: naming("read", told.read), go: readHash(ctx, step, told.read) };
  if (told) return { say: say(told.words ?? (told.moves ? "see_moves" : "see_answer"), { n: told.moves }), go: `${unit}/${told.to ?? "frame"}/${told.sheet}` };
  const against = refusal(ctx, step);
  if (against?.frame) return { say: say("frame_again"), do: () => openRound(ctx, against.frame, step) };
  if (against?.field) return { say: naming(doing(against.field), against.field), do: () => jump(against.field.id) };
  if (step.hold && !st.hold) return { say: say("second_look"), go: `${unit}/hold/${step.id}` };
  return onward(ctx, step);
}

function onward(ctx, step) {
  const unit = `#unit/${ctx.unit.id}`;
  const next = following(ctx, step);
  if (!next || (next.signed === false && step.signed !== false)) return { say: say("sign"), go: `${unit}/sign` };
  if (!opens(ctx, next)) return { say: say("all_steps"), go: `${unit}/stage/${step.stage}` };
  if (next !== ctx.packet.steps[ctx.packet.steps.indexOf(step) + 1]) return goOn(ctx, next);
  return { say: next.stage === step.stage ? say("next_step") : say("next_stage", { say: placeOf(ctx, next).stage }), go: hashOf(ctx, next) };
}

// brings a field into sight and onto the keys
function jump(id) {
  const node = document.getElementById(`field-${id}`);
  node?.scrollIntoView({ block: "center" });
  node?.querySelector("button, a")?.focus({ preventScroll: true });
}

export async function render(ctx) {
  const step = ctx.packet && stepOf(ctx, ctx.at.step);
  if (!step) return noPlan(ctx);
  const unit = `#unit/${ctx.unit.id}`;
  if (!opens(ctx, step)) {
    return { title: step.say, overline: say("step_of", placeOf(ctx, step)), main: [h("p", { class: "strong" }, say("shut_here")), h("p", null, say("shut_step"))],
      left: { say: say("all_steps"), go: `${unit}/stage/${step.stage}` }, right: { say: say("all_stages"), go: unit }, action: goOn(ctx, barrier(ctx)) };
  }
  visit(ctx, step);
  const st = stepState(ctx, step.id);
  const back = before(ctx, step);
  const main = action(ctx, step);
  const may = st.is === "outside" && step.concession !== false;
  const ask = may && (!standingKind(ctx, "ask", step.id).length || notGranted(ctx, step));
  const usual = back ? { say: say("step_before"), go: `${unit}/step/${back.id}` } : { say: say("all_steps"), go: `${unit}/stage/${step.stage}` };
  return {
    title: step.say, overline: say("step_of", placeOf(ctx, step)), rowA: boxSay(ctx.unit.box ?? ctx.packet.unit.box) ?? undefined,
    main: [cautions(step.cautions), answered(ctx, step), step.purpose ? h("p", null, step.purpose) : null, step.shown?.length ? h("ul", { class: "shown" }, step.shown.map((line) => h("li", null, line))) : null, drawingsOf(ctx, step),
      await Promise.all(shown(step).map((field) => fieldNodes(ctx, step, field))), recorded(ctx, step), answerRows(ctx, step),
      remarks(ctx, step), may && main.go !== onward(ctx, step).go ? h("a", { class: "key", id: "next-step", href: onward(ctx, step).go }, onward(ctx, step).say) : null, h("a", { class: "row linked", href: `${unit}/note/${step.id}` }, say("note"))],
    left: leftKey(ctx, usual), right: ask ? { say: say("ask_concession"), go: `${unit}/ask/${step.id}`, class: "wide" } : { say: say("all_stages"), go: unit },
    action: main, shut,
    alert: ctx.fresh ? `${say("new_plan", { time: timeOf(ctx.fresh.since), changed: ctx.fresh.changed.join("; ") })} ${say("take_after")}` : undefined,
  };
}
