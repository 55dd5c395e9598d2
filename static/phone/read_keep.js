// Keeping a figure: what was typed is checked, asked back where it has two readings, and kept as a `reading`.
import { lengthText, unitSign } from "./dim.js";
import { justKept, replacing } from "./flow.js";
import { roundOfField } from "./answers.js";
import { LengthError, read } from "./lengths.js";
import { checkLength, checkNumber, denMissing, limits, mayBeMinus, turned, unfinished } from "./read_check.js";
import { withUnit } from "./pad_keys.js";
import { arrow } from "./shapes.js";
import { levelOf, levelUntold } from "./ways.js";
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
  if (!line.replace(/^[+-]/, "").trim()) return view.tell(say("nothing"));
  const at = view.at();
  const halves = unfinished(at.text === line ? at : { text: line });
  if (halves) return view.tell(denMissing(halves));
  const found = checkLength(line, typed.unit, limits(about, ways));
  if (found.fault) return view.tell(found.fault);
  view.tell(null);
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
  if (found.out) return rangeTitle(range, (mm) => lengthText(mm * NM, unit));
  return plan ? say("did_you_mean", { x: lengthText(plan, unit) }) : say("did_you_mean_bare");
}

function rangeTitle({ from, to }, one) {
  if (from === null) return say("above_range", { x: one(to) });
  return to === null ? say("below_range", { x: one(from) }) : say("out_of_range", { a: one(from), b: one(to) });
}

// The figure on its key: with its direction where it has one, with its minus where it has none.
function named({ text, nm }, ways) {
  const bare = text.replace(/^[+-]/, "").replace(/ (in|mm|ft)/g, "\u00A0$1");
  if (ways) return nm ? `${bare} ${ways[nm < 0 ? 0 : 1].word}` : bare;
  return nm < 0 ? `\u2212${bare}` : bare;
}

// A level's figure names the length it was read over: one's own level's, else the field's, where the side allows it.
async function put(ctx, about, view, figure, next) {
  const over = about.level ? levelOf(ctx, about, view.typed.over) : null;
  return keepValue(ctx, about, view, { ...figure, ...(over && { over }) }, next);
}

async function keepNumber(ctx, about, view, next) {
  const [line] = view.typed.lines;
  const { range } = limits(about, view.ways);
  const found = checkNumber(line, { minus: Boolean(view.ways) || mayBeMinus(about.field), range });
  if (found.fault !== undefined) return view.tell(say(line.trim() ? "number_what" : "nothing"));
  view.tell(null);
  const unit = unitSign(about.field.ucum);
  const text = (one) => [one.text, unit].filter(Boolean).join(" ");
  const keep = (one) => keepValue(ctx, about, view, { text: text(one), number: one.number, ucum: about.field.ucum ?? "1" }, next);
  if (!found.ask) return keep(found);
  const title = found.minus ? say("no_sign_here") : rangeTitle(range, (x) => `${x} ${unit}`.trim());
  return view.ask(title, [...found.ask.map((one) => ({ say: one.asTyped ? say("as_typed", { x: text(one).replace(/^-/, "\u2212") }) : text(one), do: () => keep(one) })),
    { say: say("neither"), do: () => view.redraw() }]);
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

const LEVELS = [200, 6000];     // mm: the shortest and the longest level that one's own may be
const RAILS = [200, 20_000];   // what a tilt may be read over, contract.md

async function keepLevel(ctx, about, view) {
  const [from, to] = view.tilt ? RAILS : LEVELS;
  const line = view.typed.level ?? "";
  if (!line.trim()) return levelUntold(ctx, about) ? view.tell(say("nothing")) : view.fromLevel();
  let nm = null;
  try {
    nm = read(withUnit(line, view.typed.unit));
  } catch (fault) {
    if (!(fault instanceof LengthError)) throw fault;
    return view.tell(fault.message);
  }
  if (nm < from * NM || nm > to * NM) return view.tell(say("level_bad", { a: lengthText(from * NM, view.typed.unit), b: lengthText(to * NM, view.typed.unit) }));
  return view.over(nm);
}
