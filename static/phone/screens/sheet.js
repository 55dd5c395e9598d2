// One answer from one sheet: what it rests on as dimension lines, one large sentence, shape and word, why, source.
import { answerOf } from "../answers.js";
import { dimLine, lengthText, readingText } from "../dim.js";
import { h } from "../dom.js";
import { keepAnswer, valueText } from "../field.js";
import { hasScreen, homeStep, leftKey, readHash, shut } from "../flow.js";
import { byId, feeding, noPlan, timeOf } from "../look.js";
import { stateLine } from "../shapes.js";
import { sheetSay, unsigned } from "../step_answers.js";
import { plainRange, rangeText, vial } from "../vial.js";
import { waysOf } from "../ways.js";
import { say } from "../words.js";

// An input: its field's line, or the plan's own figure.
function inputRow(ctx, sheet, given, input, home) {
  const at = feeding(ctx, sheet.name, input.name, home);
  const id = given.behind?.[input.name]?.at(-1);
  const entry = id && byId(ctx.entries).get(id);
  if (!at) return null;
  const value = entry?.value.nm ?? entry?.value.number;
  const way = value ? waysOf(at.field)?.[value < 0 ? 0 : 1] ?? null : null;
  const text = entry ? (entry.kind === "reading" ? readingText(entry) : valueText(entry, at.field)) : null;
  return dimLine({ go: hasScreen(at.field) ? readHash(ctx, at.step, at.field) : `#unit/${ctx.unit.id}/step/${at.step.id}`, name: at.field.say, allowance: input.needed === false ? say("optional") : "", text, way, plain: entry?.kind !== "reading", manner: [way?.word, entry && timeOf(entry.at)].filter(Boolean).join(", ") });
}

function judgedRow(ctx, sheet, item) {
  const words = sheet.judged.find((j) => j.what === item.what);
  const unit = words?.unit ?? "";
  const figure = (x) => (unit === "mm" ? lengthText(x * 1e6, ctx.settings.show) : `${Number(x.toFixed(1))} ${unit}`.trim());
  return h("li", { class: "vial-row" }, h("b", null, words?.say ?? item.what), h("span", null, say("why_row", { x: unit === "mm" ? rangeText(item, figure(item.estimate), ctx.settings.show) : plainRange(item, figure), y: limitText(item, figure) })), vial(item.estimate, item.u, item.from, item.to, item.verdict), stateLine(item.verdict, null, { flipped: item.from !== null && item.estimate < item.from }));
}

function limitText({ from, to }, figure) {
  if (from === -to) return `±\u00A0${figure(to)}`;
  if (from === null) return say("at_most", { x: figure(to) });
  return to === null ? say("at_least", { x: figure(from) }) : say("from_to", { a: figure(from), b: figure(to) });
}

const sentences = (answer) => [answer.say ?? []].flat().filter((text) => typeof text === "string").map(unsigned);

// The choice field `row` that stands beside a rivet sheet.
function rowField(ctx, name) {
  const step = ctx.packet.steps.find((one) => one.answers?.some((a) => a.sheet === name) && one.fields.some((f) => f.type === "choice" && f.id === "row"));
  return step && { step, field: step.fields.find((f) => f.id === "row") };
}

function mainKey(ctx, made, home) {
  const { sheet, answer } = made;
  const back = { say: say("sheet_done"), go: `#unit/${ctx.unit.id}/step/${home.id}` };
  const missing = (answer.missing ?? []).map((name) => feeding(ctx, sheet.name, name, home)).find(Boolean);
  if (missing) return { say: say("needs_input", { say: missing.field.short ?? missing.field.say }), go: hasScreen(missing.field) ? readHash(ctx, missing.step, missing.field) : `#unit/${ctx.unit.id}/step/${missing.step.id}` };
  const row = answer.row && !answer.pick?.measure_again && rowField(ctx, sheet.name);
  if (!row || !row.field.options.some((o) => o.id === answer.row)) return back;
  return { say: say("use_row", { row: answer.row }), do: async () => { if (await keepAnswer(ctx, row.step, row.field, "choice", { chosen: answer.row }, answer.row)) ctx.go(`#unit/${ctx.unit.id}/step/${row.step.id}`); } };
}

export function render(ctx) {
  const made = ctx.packet && ctx.sheet(ctx.at.sheet) && answerOf(ctx, ctx.at.sheet);
  if (!made) return noPlan(ctx);
  const { sheet, answer, given } = made;
  const home = homeStep(ctx, sheet.name);
  const verdict = answer.pick?.verdict ?? answer.verdict ?? null;
  const [first, ...more] = sentences(answer);
  const action = mainKey(ctx, made, home);
  const step = { say: say("step_key"), go: `#unit/${ctx.unit.id}/step/${home.id}` };
  return {
    title: sheetSay(ctx, sheet.name), overline: home.say,
    main: [first ? h("p", { class: "large" }, first) : null, verdict ? h("p", null, stateLine(verdict)) : null,
      answer.judged?.length ? h("ul", { class: "plain" }, answer.judged.map((item) => judgedRow(ctx, sheet, item))) : null, more.map((text) => h("p", null, text)),
      h("h2", null, say("inputs")), (sheet.inputs ?? []).map((input) => inputRow(ctx, sheet, given, input, home)),
      sheet.source ? h("p", { class: "small" }, say("limits_from", { source: sheet.source })) : null, h("p", { class: "small" }, say("sheet_of", { name: sheet.name, hash: ctx.sheetHash(sheet.name).slice(0, 12) }))],
    left: leftKey(ctx, step), action, shut,
  };
}
