// True or not, with the fewest readings: what decides most on top, then every kind that can be read.
import { answerOf, canRead, openRound, roundOf } from "../answers.js";
import { drawReadings } from "../draw_readings.js";
import { h } from "../dom.js";
import { homeStep, leftKey, naming, readHash, shut } from "../flow.js";
import { readingSay } from "../frame_look.js";
import { lengthText } from "../dim.js";
import { feeding, kindSay, noPlan, standing } from "../look.js";
import { sheetSay } from "../step_answers.js";
import { say } from "../words.js";

const DIAGONALS = ["diagonal_bl_tr", "diagonal_tl_br"];

// Kinds of the sheet that the plan has a field for: [{kind, step, field, now: entries of this round, before}].
function kinds(ctx, sheet, home) {
  const round = roundOf(ctx, sheet.name);
  const can = new Set(canRead(ctx) ?? sheet.next?.can_read ?? sheet.kinds);
  return sheet.kinds.map((kind) => ({ kind, ...feeding(ctx, sheet.name, kind, home) })).filter((one) => one.field).map((one) => {
    const all = standing(ctx, one.step.id, one.field.id).filter((e) => e.kind === "reading");
    return { ...one, asked: can.has(one.kind), now: all.filter((e) => (e.round ?? null) === round), before: all.filter((e) => (e.round ?? null) !== round) };
  });
}

function row(ctx, sheet, { kind, step, field, now, before }, why) {
  const last = (now.at(-1) ?? before.at(-1))?.id;
  const note = now.length ? readingSay(ctx, last, field) : before.length ? say("last_round", { x: readingSay(ctx, last, field) }) : null;
  return h("li", { class: why === null ? null : "now" }, h("a", { class: "row", href: readHash(ctx, step, field, "frame") },
    h("span", { class: "name" }, kindSay(ctx, sheet, kind)), why ? h("span", null, why) : null, why !== null && field.how ? h("span", { class: "small" }, field.how) : null, note ? h("span", { class: now.length ? null : "small" }, note) : null));
}

// A box out of level is said first: gravity will work on the leaf however true the frame is.
function boxTilt(ctx, sheet, given) {
  const { along = 0, through = 0, over } = given.tilt ?? {};
  const side = sheet.readings.height_left?.constant ?? 0;
  const most = sheet.judged.find((j) => j.what === "plumb_left")?.tolerance ?? Infinity;
  const worst = Math.max(Math.abs(along), Math.abs(through)) / over * side;
  return over && worst > most ? h("p", { class: "alert" }, say("not_level", { x: lengthText(worst * 1e6, ctx.settings.show) })) : null;
}

/** What stands when two rounds were begun without sight of each other. */
export function splitScreen(ctx, name, step) {
  const to = `#unit/${ctx.unit.id}/step/${step.id}`;
  return { title: say("read_again"), overline: say("frame"), main: [h("p", { class: "alert" }, say("split"))],
    left: { say: say("back"), go: to }, action: { say: say("read_again"), do: () => openRound(ctx, name, step) } };
}

export function render(ctx) {
  const name = ctx.at.sheet ?? "frame";
  if (!ctx.packet || !ctx.sheet(name)) return noPlan(ctx);
  const step = homeStep(ctx, name);
  const made = answerOf(ctx, name);
  if (!made) return splitScreen(ctx, name, step);
  const { sheet, answer, given } = made;
  const all = kinds(ctx, sheet, step);
  const read = all.filter((one) => one.now.length);
  const any = given.rounds.some((round) => round.readings.length);
  // a round begun though nothing more was wanted (the leaf catches in a frame that is true) starts as the first did
  const anew = !any || (!read.length && !answer.next);
  const next = anew ? DIAGONALS.find((kind) => all.some((one) => one.kind === kind)) ?? answer.next?.of : answer.next?.of;
  const first = all.find((one) => one.kind === next) ?? (anew ? all.find((one) => one.asked) : undefined);
  const order = [...(first ? [first] : []), ...all.filter((one) => one !== first && one.asked), ...all.filter((one) => one !== first && !one.asked)];
  const why = (one) => (one !== first ? null : anew ? "" : answer.next.why);
  const unit = `#unit/${ctx.unit.id}`;
  const usual = { say: say("back"), go: `${unit}/step/${step.id}` };
  const see = { say: say("see_frame"), go: `${unit}/frame/${name}` };
  return {
    title: any ? say("reading_title") : say("start_diagonals"), overline: say("frame_line", { say: sheetSay(ctx, name), round: given.rounds.length, readings: read.length ? say("n_readings", { n: read.reduce((n, one) => n + one.now.length, 0) }) : say("no_readings") }),
    main: [boxTilt(ctx, sheet, given), drawReadings(ctx, sheet, read), h("ol", { class: "rows" }, order.map((one) => row(ctx, sheet, one, why(one))))],
    left: leftKey(ctx, usual), right: first && given.rounds.at(-1)?.readings.length ? { ...see, say: say("so_far") } : { say: say("why"), go: `${unit}/why/${name}` },
    action: first ? { say: naming("read", first.field), go: readHash(ctx, first.step, first.field, "frame") } : see, shut,
  };
}
