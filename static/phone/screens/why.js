// Why: the judged quantities as vials to scale, the readings used and set aside, the sheet and where its limits are from.
import { answerOf } from "../answers.js";
import { h } from "../dom.js";
import { answer } from "../estimate.js";
import { homeStep, readHash } from "../flow.js";
import { longName, readingSay, shownVerdict, tiltSay, withWay } from "../frame_look.js";
import { feedOf, feeding, kindSay, noPlan, standing } from "../look.js";
import { lengthText } from "../dim.js";
import { stateLine } from "../shapes.js";
import { rangeText, vial } from "../vial.js";
import { farOff } from "../read_check.js";
import { sheetSay } from "../step_answers.js";
import { say } from "../words.js";

function judgedRow(ctx, sheet, item) {
  const tolerance = item.tolerance ?? sheet.judged.find((j) => j.what === item.what)?.tolerance;
  const verdict = shownVerdict({ ...item, tolerance });
  const { show } = ctx.settings;
  const most = show === "mm" ? lengthText(tolerance * 1e6, show) : `${lengthText(tolerance * 1e6, show)} (${lengthText(tolerance * 1e6, "mm")})`;
  return h("li", { class: "vial-row" }, h("b", null, longName(ctx, sheet, item.what)), vial(item.estimate, item.u, -tolerance, tolerance, verdict),
    h("span", null, say("why_row", { x: rangeText({ ...item, verdict }, withWay(ctx, item.what, item.estimate), show), y: `±\u00A0${most}` })), stateLine(verdict, null, { flipped: item.estimate < 0 }));
}

// Standing readings of the sheet's kinds: the ids of those far from the plan, and those that no answer rests on.
function leftOut(ctx, { sheet }, fed) {
  const all = ctx.packet.steps.flatMap((step) => step.fields.filter((field) => sheet.kinds?.includes(feedOf(field, sheet.name)?.as)).map((field) => ({ step, field })));
  const far = new Set(all.flatMap(({ step, field }) => farOff(ctx, step, field)).map((entry) => entry.id));
  const left = all.flatMap(({ step, field }) => standing(ctx, step.id, field.id).filter((entry) => entry.kind === "reading" && !fed.has(entry.id)).map((entry) => ({ entry, field })));
  return { far, left };
}

// Every reading fed: its words and figure; those set aside apart, with the way to say that they are right.
function readings(ctx, made) {
  const aside = new Set((made.answer.suspects ?? []).map((s) => `${s.round}.${s.reading}`));
  const rows = made.given.rounds.flatMap((round, r) => round.readings.map((reading, i) => {
    const at = feeding(ctx, made.sheet.name, reading.of);
    const over = reading.over ? `, ${say("over", { x: lengthText(reading.over * 1e6, ctx.settings.show) })}` : "";
    return { aside: aside.has(`${r}.${i}`), at, id: reading.id, text: `${kindSay(ctx, made.sheet, reading.of)}: ${readingSay(ctx, reading.id, at?.field)}${over}, ${say("round", { n: r + 1 })}`, kind: reading.of, order: r * 100 + made.sheet.kinds.indexOf(reading.of) };
  }));
  rows.sort((a, b) => a.order - b.order);
  const used = rows.filter((row) => !row.aside);
  const put = rows.filter((row) => row.aside);
  const { far, left } = leftOut(ctx, made, new Set(rows.map((row) => row.id)));
  return [h("h2", null, say("used")), used.length ? h("ul", null, used.map((row) => h("li", null, row.text, far.has(row.id) ? [" ", stateLine("far")] : null))) : h("p", null, say("nothing_used")),
    put.length ? [h("h2", null, say("aside")), put.map((row) => h("div", { class: "alert" }, h("p", null, row.text), h("p", null, say("use_say", { say: kindSay(ctx, made.sheet, row.kind) })),
      row.at ? h("a", { class: "key", href: readHash(ctx, row.at.step, row.at.field, "frame") }, say("use_it")) : null))] : null,
    left.length ? [h("h2", null, say("not_used")), h("ul", null, left.map(({ entry, field }) => h("li", null, `${field.short ?? field.say}: ${readingSay(ctx, entry.id, field)}`, far.has(entry.id) ? [" ", stateLine("far")] : null)))] : null];
}

// A move in words and how far, after what was told or made.
function movesSay(ctx, sheet, moves) {
  const verb = (move) => sheet.corrections.find((one) => one.do === move.do)?.say.verb ?? move.do;
  return moves.map((move) => `${verb(move)} ${lengthText(move.by * 1e6, ctx.settings.show)}`).join("; ") || say("no_moves");
}

/** Rounds side by side: each quantity as it stood round by round, then what was read, told and made; null for one round. */
export function roundByRound(ctx, { sheet, given }) {
  const { rounds } = given;
  if ((rounds?.length ?? 0) < 2) return null;
  const answers = rounds.map((round, r) => answer(sheet, { ...given, rounds: [...rounds.slice(0, r), { ...round, done: [] }] }));
  const stood = ({ judged }, what) => { const item = judged.find((j) => j.what === what); return shownVerdict(item) === "not known" ? say("is.not known") : withWay(ctx, what, item.estimate); };
  return [h("h2", null, say("rounds_title")),
    h("ul", null, sheet.judged.map(({ what }) => h("li", null, h("b", null, longName(ctx, sheet, what)), `: ${answers.map((one) => stood(one, what)).join(" → ")}`))),
    h("ol", null, rounds.map((round, r) => h("li", null, `${say("n_readings", { n: round.readings.length })}. ${say("told_x", { x: movesSay(ctx, sheet, answers[r].corrections) })} ${say("made_x", { x: movesSay(ctx, sheet, round.done ?? []) })}`)))];
}

export function render(ctx) {
  const name = ctx.at.sheet;
  const made = ctx.packet && ctx.sheet(name) && answerOf(ctx, name);
  if (!made) return noPlan(ctx);
  const { sheet, answer } = made;
  const unit = `#unit/${ctx.unit.id}`;
  const back = sheet.corrections ? `${unit}/frame/${name}` : `${unit}/sheet/${name}`;
  const items = (answer.judged ?? []).filter((item) => "tolerance" in item || sheet.judged.some((j) => j.what === item.what && j.tolerance));
  return {
    title: say("why_title"), overline: sheetSay(ctx, name),
    main: [h("ul", { class: "plain" }, items.map((item) => judgedRow(ctx, sheet, item))), items.length ? h("p", { class: "small" }, say("bar")) : null,
      sheet.corrections ? roundByRound(ctx, made) : null, made.given.rounds ? [tiltSay(ctx, made).map((text) => h("p", null, text)), readings(ctx, made)] : null, sheet.source ? h("p", { class: "small" }, say("limits_from", { source: sheet.source })) : null,
      h("p", { class: "small" }, say("sheet_of", { name: sheet.name, hash: ctx.sheetHash(name).slice(0, 12) }))],
    left: { say: say("step_key"), go: `${unit}/step/${homeStep(ctx, name).id}` },
    action: { say: say(answer.corrections?.length ? "to_moves" : "to_answer"), go: back },
  };
}
