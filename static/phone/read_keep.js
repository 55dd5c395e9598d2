// Keeping a figure: what was typed is checked, asked back where it has two readings, and kept as a `reading`.
import { lengthText, unitSign } from "./dim.js";
import { justKept, replacing } from "./flow.js";
import { roundOfField } from "./answers.js";
import { LengthError, read } from "./lengths.js";
import { checkLength, checkNumber, denMissing, limits, turned, unfinished } from "./read_check.js";
import { withUnit } from "./pad_keys.js";
import { arrow } from "./shapes.js";
import { levelOf } from "./ways.js";
import { say } from "./words.js";

const NM = 1e6;
const LEVEL = 2;

/** The main action of the number screen; `next`: the hash it leads to once the figure is on disk. */
export async function keepFigure(ctx, about, view, next) {
  const { typed } = view;
  if (typed.on === LEVEL) return keepLevel(ctx, about, view);
  if (about.field.type === "number") return keepNumber(ctx, about, view, next);
  if (about.level && typed.on === 1 && !typed.lines[1].trim()) return check(ctx, about, view, typed.lines[0], (first) => put(ctx, about, view, first, next));
  return check(ctx, about, view, typed.lines[typed.on], (figure) => {
    if (!about.level) return put(ctx, about, view, figure, next);
    if (typed.on === 0) return view.line(1);
    return check(ctx, about, view, typed.lines[0], (first) => put(ctx, about, view, turned(first, figure), next));
  });
}

// A figure that is clear goes on to `then`; one that is not says why, or gives the pad over to its readings.
function check(ctx, about, view, line, then) {
  const { typed, ways } = view;
  if (!line.replace(/^[+-]/, "").trim()) return ctx.say(say("nothing"));
  const at = view.at();
  const halves = unfinished(at.text === line ? at : { text: line });
  if (halves) return ctx.say(denMissing(halves));
  const found = checkLength(line, typed.unit, limits(about, ways));
  if (found.fault) return ctx.say(found.fault);
  ctx.say(null);
  if (ways && found.nm && !/^\s*[+-]/.test(line)) {
    return view.ask(say("which_way", { a: ways[0].word, b: ways[1].word }), [...ways.map((way, i) => ({ say: [arrow(way.arrow), way.word], do: () => { view.sign("-+"[i]); return check(ctx, about, view, "-+"[i] + line, then); } })),
      { say: say("neither"), do: () => view.redraw() }]);
  }
  if (!found.ask || view.sure.has(found.text)) return then({ text: found.text, nm: found.nm ?? found.ask.find((choice) => choice.text === found.text)?.nm });
  return view.ask(question(about, typed.unit, ways, found), [...found.ask.filter((choice) => choice.nm !== null).map((choice) => ({
    say: choice.asTyped ? say("as_typed", { x: named(choice, ways) }) : named(choice, ways),
    // a level's first line is checked once more with its second: what was answered here is not asked again
    do: () => { view.sure.add(choice.text); view.settle(ways && choice.nm > 0 ? `+${choice.text}` : choice.text); return then({ text: choice.text, nm: choice.nm }); },
  })), { say: say("neither"), do: () => view.redraw() }]);
}

// Why one is asked: the sign, the plan, the range, or two ways to read it.
function question(about, unit, ways, found) {
  const { plan, range } = limits(about, ways);
  if (found.minus) return say("no_sign_here");
  if (found.far) return plan ? say("did_you_mean", { x: lengthText(plan, unit) }) : say("far_for_offset");
  if (found.out && range.from !== null && range.to !== null) return say("out_of_range", { a: lengthText(range.from * NM, unit), b: lengthText(range.to * NM, unit) });
  return plan ? say("did_you_mean", { x: lengthText(plan, unit) }) : say("did_you_mean_bare");
}

// The figure on its key: with its direction where it has one, with its minus where it has none.
function named({ text, nm }, ways) {
  const bare = text.replace(/^[+-]/, "").replace(/ (in|mm|ft)/g, "\u00A0$1");
  if (ways) return nm ? `${bare} ${ways[nm < 0 ? 0 : 1].word}` : bare;
  return nm < 0 ? `\u2212${bare}` : bare;
}

// A level's figure names the length it was read over: one's own level's, else the field's, where the side allows it.
async function put(ctx, about, view, figure, next) {
  const over = about.level ? levelOf(ctx, about) : null;
  return keepValue(ctx, about, view, { ...figure, ...(over && { over }) }, next);
}

async function keepNumber(ctx, about, view, next) {
  const [line] = view.typed.lines;
  const found = checkNumber(line);
  if (found.number === undefined) return ctx.say(say(line.trim() ? "number_what" : "nothing"));
  ctx.say(null);
  return keepValue(ctx, about, view, { text: [found.text, unitSign(about.field.ucum)].filter(Boolean).join(" "), number: found.number, ucum: about.field.ucum ?? "1" }, next);
}

async function keepValue(ctx, about, view, value, next) {
  const { step, field } = about;
  const round = roundOfField(ctx, field);
  const entry = ctx.make("reading", value, { step: step.id, field: field.id, round, replaces: replacing(ctx, step, field, round), sheet: about.feed?.sheet });
  if (!await ctx.keep([entry])) return;
  view.closed = true;
  await ctx.draft(about.key, null).catch(() => null);
  justKept([entry]);
  ctx.go(next);
}

async function keepLevel(ctx, about, view) {
  const { over_from: from = 200, over_to: to = 4000 } = about.reading ?? {};
  const line = view.typed.level ?? "";
  let nm = null;
  try {
    nm = line.trim() ? read(withUnit(line, view.typed.unit)) : null;
  } catch (fault) {
    if (!(fault instanceof LengthError)) throw fault;
    return ctx.say(fault.message);
  }
  if (nm !== null && (nm < from * NM || nm > to * NM)) return ctx.say(say("level_bad", { a: lengthText(from * NM, view.typed.unit), b: lengthText(to * NM, view.typed.unit) }));
  ctx.say(null);
  await ctx.setting("level", nm);
  ctx.settings.level = nm;
  return view.line(view.typed.lines[0].trim() ? 1 : 0);
}
