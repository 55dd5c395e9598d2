// The frame's answer: what was told, where the hand goes, the moves in order, and what comes after them.
import { answerOf, movesMade, openRound, roundOf, tell } from "../answers.js";
import { drawFrame, moveWay } from "../draw_frame.js";
import { h } from "../dom.js";
import { homeStep, leftKey, lower, naming, readHash, refusal, shut } from "../flow.js";
import { longName, readingSay, shownVerdict, tiltSay, verdictGroups, withWay } from "../frame_look.js";
import { sayUp } from "../lengths.js";
import { feeding, goOn, hashOf, kindSay, noPlan, present } from "../look.js";
import { arrow } from "../shapes.js";
import { sheetSay } from "../step_answers.js";
import { known, say } from "../words.js";
import { lengthText } from "../dim.js";
import { render as readings, splitScreen } from "./readings.js";

const ENOUGH = 3;  // readings of one kind in a round, as many as anybody takes gladly
const NUMBERS = ["", "One", "Two", "Three", "Four", "Five", "Six"];

// The moves of this round as told: those made first in their own words, then those that stand, each {do, nm, by, say, made}.
function plan(ctx, name, corrections) {
  const made = movesMade(ctx, name).map((e) => ({ do: e.value.do, by: e.value.nm / 1e6, made: true }));
  const listed = corrections.map((move) => ({ ...move, made: made.some((one) => one.do === move.do) }));
  const gone = made.filter((one) => !corrections.some((move) => move.do === one.do)).map((one) => ({ ...one, say: `${one.do.replace(/_/g, " ")} ${lengthText(one.by * 1e6, ctx.settings.show)}` }));
  return [...gone, ...listed];
}

// Where the plan has the reading to take next: {step, field}; null when none is wanted or the plan has none.
const nextAt = (ctx, { sheet, answer }, near = null) => (answer.next ? feeding(ctx, sheet.name, answer.next.of, near) : null);

// Where a figure that was set aside is measured again, {of, step, field}, once what is asked for was read often enough in
// this round and settled nothing: then it is what does not fit that is in the way. Null: not so.
function doubtedAt(ctx, { sheet, answer, given }) {
  const asked = given.rounds.at(-1)?.readings.filter((reading) => reading.of === answer.next?.of).length ?? 0;
  const other = asked >= ENOUGH && answer.suspects?.find((suspect) => suspect.of !== answer.next.of);
  const at = other && feeding(ctx, sheet.name, other.of);
  return at ? { of: other.of, ...at } : null;
}

function told(ctx, made, moves, standing) {
  const { answer } = made;
  if (moves.length) return standing || !moves.some((move) => move.made) ? say("moves_then", { n: moves.length, many: NUMBERS[moves.length] ?? moves.length }) : say("moves_done");
  const doubted = doubtedAt(ctx, made);
  if (doubted) return say("doubt_first", { n: answer.suspects.length, say: lower(kindSay(ctx, made.sheet, doubted.of)) });
  const verdicts = answer.judged.map(shownVerdict);
  const either = verdicts.includes("too close to call") && !verdicts.includes("outside");
  if (nextAt(ctx, made)) return say(either ? "either" : "need_more", { say: lower(kindSay(ctx, made.sheet, answer.next.of)) });
  return answer.judged.every((item) => item.verdict === "inside") ? say("leave") : say("settled");
}

function moveRow(ctx, move, n) {
  const trims = Object.entries(move.trim ?? {}).filter(([, mm]) => mm > 0).map(([place, mm]) => say("trim_first", { x: sayUp(mm, ctx.settings.show), place: known(`place.${place}`) ? say(`place.${place}`) : place }));
  const unfix = (move.unfix ?? []).map((corner) => say("unfix_first", { corner: say(`corner.${corner}`) }));
  return h("li", { class: ["move", move.made && "made"] }, arrow(moveWay(move.do)),
    h("p", null, h("b", null, `${n} `), [...unfix, ...trims].map((text) => h("b", null, `${text} `)), move.say, move.made ? h("b", null, ` ${say("made")}`) : null));
}

// What was set aside, with the way to measure it again.
function aside(ctx, made) {
  return (made.answer.suspects ?? []).map((suspect) => {
    const at = feeding(ctx, made.sheet.name, suspect.of, homeStep(ctx, made.sheet.name));
    const id = made.given.rounds[suspect.round]?.readings[suspect.reading]?.id;
    const text = say("set_aside_say", { say: kindSay(ctx, made.sheet, suspect.of), value: readingSay(ctx, id, at?.field), off: lengthText(suspect.off_by * 1e6, ctx.settings.show), likely: suspect.cause === "unknown" || !suspect.likely ? say("cause.other") : `${suspect.likely[0].toUpperCase()}${suspect.likely.slice(1)}?` });
    return h("div", { class: "alert" }, h("p", null, h("b", null, `${say("set_aside")}: `), text), at ? h("a", { class: "key", href: readHash(ctx, at.step, at.field, "frame") }, say("measure_again")) : null);
  });
}

function afterwards(ctx, { sheet, answer }) {
  if (!answer.corrections.length) return null;
  const after = answer.after.filter((item) => item.u <= (sheet.judged.find((j) => j.what === item.what)?.tolerance ?? Infinity))
    .map((item) => h("li", null, `${longName(ctx, sheet, item.what)}: ${withWay(ctx, item.what, item.estimate)}`));
  const expect = (answer.expect ?? []).map(({ of, value }) => h("li", null, `${kindSay(ctx, sheet, of)}: ${/^(plumb|lean|level|string)/.test(of) ? withWay(ctx, of, value) : lengthText(value * 1e6, ctx.settings.show)}`));
  return [after.length ? [h("h2", null, say("after_moves")), h("ul", null, after)] : null, expect.length ? [h("h2", null, say("should_read")), h("ul", null, expect)] : null];
}

async function makeMove(ctx, name, step, move) {
  const round = roundOf(ctx, name);
  const before = tell(ctx, [name], step.id, { round: { [name]: round } });
  if (await ctx.keep([...before, ctx.make("move", { sheet: name, do: move.do, nm: Math.round(move.by * 1e6) }, { step: step.id, round, sheet: name })])) ctx.again();
}

function mainKey(ctx, name, step, made, { open, moves }) {
  if (open.length) return { say: say("move_made", { n: moves.indexOf(open[0]) + 1 }), do: () => makeMove(ctx, name, step, open[0]) };
  if (moves.length) return { say: say("read_again"), do: () => openRound(ctx, name, step) };
  const next = doubtedAt(ctx, made) ?? nextAt(ctx, made, step);
  if (next) return { say: naming("read", next.field), go: readHash(ctx, next.step, next.field, "frame") };
  const now = present(ctx);
  if (now?.answers?.some((a) => a.sheet === name)) {
    const against = refusal(ctx, now);
    if (against?.frame) return { say: say("frame_again"), do: () => openRound(ctx, name, step) };
    if (now.hold && !against) return { say: say("stop_here"), go: hashOf(ctx, now) };
  }
  return goOn(ctx, now);
}

export async function render(ctx) {
  if (!ctx.packet) return noPlan(ctx);
  const name = ctx.at.sheet ?? "frame";
  if (!ctx.sheet(name)) return noPlan(ctx);
  const step = homeStep(ctx, name);
  const made = answerOf(ctx, name, true);
  if (!made) return splitScreen(ctx, name, step);
  const last = made.given.rounds.at(-1);
  if (!last?.readings.length) return readings(ctx);
  const moves = plan(ctx, name, made.answer.corrections);
  const wont = await ctx.draft(`will-not/${ctx.unit.id}/${roundOf(ctx, name) ?? ""}`) ?? [];
  const open = moves.filter((move) => !move.made && !wont.includes(move.do));
  const unit = `#unit/${ctx.unit.id}`;
  const to = `${unit}/step/${step.id}`;
  const usual = open.length ? { say: say("cannot"), go: `${unit}/cannot/${name}/${open[0].do}`, back: to } : { say: say("all_readings"), go: `${unit}/readings/${name}`, back: to };
  return {
    title: told(ctx, made, moves, open.length > 0), overline: say("frame_line", { say: sheetSay(ctx, name), round: made.given.rounds.length, readings: say("n_readings", { n: last.readings.length }) }),
    rowA: moves.length ? say("moves_of", { n: moves.filter((move) => move.made).length, of: moves.length }) : undefined,
    main: [h("div", { class: "split" }, drawFrame(made.sheet, made.answer.judged, moves, { after: made.answer.after, show: ctx.settings.show }), verdictGroups(ctx, made.answer.judged)),
      moves.length ? h("ol", { class: "moves" }, moves.map((move, i) => moveRow(ctx, move, i + 1))) : null,
      tiltSay(ctx, made).map((text) => h("p", null, text)), aside(ctx, made), (made.answer.built ?? []).map((item) => h("p", { class: "alert" }, h("b", null, `${say("built")}: `), item.say)), afterwards(ctx, made)],
    left: leftKey(ctx, usual), right: { say: say("why"), go: `${unit}/why/${name}` }, action: mainKey(ctx, name, step, made, { open, moves }), shut,
  };
}
