// What the sheets say on a step: a line for each answer, leading to the whole of it; and what a wrong reading means.
import { answerOf } from "./answers.js";
import { h } from "./dom.js";
import { fieldVerdict, outsideLine } from "./field.js";
import { lengthText } from "./dim.js";
import { withWay } from "./frame_look.js";
import { lower, shown } from "./flow.js";
import { frameOf, stepState } from "./look.js";
import { stateLine } from "./shapes.js";
import { whatSay } from "./steps.js";
import { known, say } from "./words.js";

const WORST = ["outside", "too close to call", "not known", "inside"];

// The judged quantities of a step by verdict, the word once.
function judgedLines(ctx, step, { sheet, judged }) {
  const verdicts = ctx.state.sheets[sheet]?.verdicts ?? {};
  return WORST.map((is) => [is, judged.filter((what) => (verdicts[what] ?? "not known") === is)]).filter(([, whats]) => whats.length)
    .map(([is, whats]) => stateLine(is, whats.map((what) => lower(whatSay(ctx, step, what))).join("; ")));
}

/** A sheet's sentence without bare signs: a band even about nothing is an allowance, "± 6 mm". */
export const unsigned = (text) => text.replace(/−(\S+\u00A0?\S*) to \1/g, "±\u00A0$1");

// A sheet's first sentence, where it speaks without corrections.
function sentence(ctx, sheet) {
  const made = answerOf(ctx, sheet);
  const text = made?.answer.say?.[0] ?? made?.answer.say;
  return typeof text === "string" ? h("span", { class: "small" }, unsigned(text)) : null;
}

// Where a field's limit is from.
const limitSource = ({ expect }) => (expect?.source ? h("span", { class: "small source" }, say("from_source", { origin: `${say(`origin.${expect.origin}`)}, ${expect.source}` })) : null);

/** Rows for the answers of a step, each a link, then "If it is wrong" and the history. */
export function answerRows(ctx, step) {
  const unit = `#unit/${ctx.unit.id}`;
  const answers = (step.answers ?? []).filter((a) => ctx.sheet(a.sheet));
  const rows = answers.map((a) => {
    const frame = Boolean(ctx.sheet(a.sheet).corrections);
    return h("li", null, h("a", { class: "row", href: frame ? `${unit}/frame/${a.sheet}` : `${unit}/sheet/${a.sheet}` },
      h("b", null, say("answer_of", { say: sheetSay(ctx, a.sheet) })), judgedLines(ctx, step, a), frame ? null : sentence(ctx, a.sheet)));
  });
  const wrongs = shown(step).filter((field) => (field.wrong && fieldVerdict(ctx, step, field) !== "outside") || field.expect?.source);
  const any = Object.keys(stepState(ctx, step.id).values).length;
  return [rows.length ? h("ul", { class: "rows" }, rows) : null,
    wrongs.length ? h("details", { class: "folded", id: "wrong" }, h("summary", { class: "row" }, h("span", { class: "name" }, say("wrong_title"))),
      wrongs.map((field) => h("p", null, h("b", null, field.say), h("br"), field.wrong, limitSource(field)))) : null,
    any ? h("a", { class: "row linked", href: `${unit}/history/${step.id}` }, say("history")) : null];
}

/** "30.8 %, allowed 40 % to 50 %. Recorded." for each judged quantity that is outside on a step, with what to do. */
export function recorded(ctx, step) {
  const judged = stepState(ctx, step.id).outside.filter((id) => !step.fields.some((field) => field.id === id));
  const then = say(stepState(ctx, step.id).is === "passed" ? "then_passed" : step.concession === false ? "then_right" : frameOf(ctx, step) ? "then_moves" : "then_ask");
  return outsideLines(ctx, step, judged).map((x) => h("p", { class: "outside-say" }, say("outside_recorded", { x, then })));
}

/** What is outside on a step, each with its figure and its limit: [text]. */
export function outsideLines(ctx, step, ids = stepState(ctx, step.id).outside) {
  const judged = (step.answers ?? []).flatMap((a) => { const made = answerOf(ctx, a.sheet); return (made?.answer.judged ?? []).map((item) => [made.sheet, item]); });
  return ids.flatMap((id) => {
    const field = step.fields.find((one) => one.id === id);
    const [sheet, item] = judged.find(([, one]) => one.what === id) ?? [];
    if (field || !item) return [field && outsideLine(ctx, step, field)].filter(Boolean);
    const words = sheet.judged.find((one) => one.what === id) ?? {};
    const unit = words.unit ?? (sheet.kind === "linear" ? "mm" : "");
    const figure = (x) => (unit === "mm" ? `${lengthText(x * 1e6, ctx.settings.show)}` : `${Number(x.toFixed(1))}\u00A0${unit}`.trim());
    const limit = item.tolerance ?? words.tolerance;
    const [from, to] = limit ? [-limit, limit] : [item.from ?? null, item.to ?? null];
    const allowed = from !== null && from === -to ? `±\u00A0${figure(to)}` : from === null ? say("at_most", { x: figure(to) }) : to === null ? say("at_least", { x: figure(from) }) : say("from_to", { a: figure(from), b: figure(to) });
    return [say("outside_line", { say: whatSay(ctx, step, id), x: sheet.kind === "linear" ? withWay(ctx, id, item.estimate) : figure(item.estimate), y: allowed })];
  });
}

/** A sheet's name for people. */
export const sheetSay = (ctx, name) => (known(`sheet.${name}`) ? say(`sheet.${name}`) : name.replace(/_/g, " "));
