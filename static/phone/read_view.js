// The number screen's nodes, kept and changed in place: a key touched draws its figure, echo and pad anew, nothing else.
import { arrow } from "./shapes.js";
import { allowanceText, figureNodes, lengthText, readingText, unitSign } from "./dim.js";
import { fill, h, svg } from "./dom.js";
import { read } from "./lengths.js";
import { markPad, padNode } from "./pad.js";
import { begin, press, withUnit } from "./pad_keys.js";
import { checkLength, denMissing, limits, mayBeMinus, planOf, unfinished } from "./read_check.js";
import { savedCell } from "./row_a.js";
import { personName, standing, timeOf } from "./look.js";
import { answerOf, roundOfField } from "./answers.js";
import { levelOf, levelUntold, ownOver, waysOf } from "./ways.js";
import { say } from "./words.js";

const DRAFT_AFTER_MS = 300;
const LEVEL = 2;  // `on`: 0 and 1 are the lines, 2 the length of one's level
const LONG = 9;   // characters of a figure that fit beside its drawing,
const LONG_WAY = 5;  // and of one with its direction
const LONG_SAID = 24;  // letters of a sentence that fit there

// What row A would say: this screen has no room for it.
async function savedLine(ctx) {
  const last = ctx.entries.findLast((entry) => entry.person === ctx.person.id);
  const { shape, text } = await savedCell(ctx, last ? new Date(last.at) : null, null, true);
  return [shape, text];
}

// What stands in the field now, in this round: its figure with its way.
const standsNow = (ctx, { step, field }) => standing(ctx, step.id, field.id).filter((e) => e.kind === "reading" && (e.round ?? null) === roundOfField(ctx, field));
const byWhom = (ctx, entry) => say("by_at", { who: personName(ctx, entry.person), time: timeOf(entry.at) });
function keptText(entry, ways) {
  const way = ways && entry.value.nm ? ` ${ways[entry.value.nm < 0 ? 0 : 1].word}` : "";
  return `${readingText(entry)}${way}`;
}

/**
 * The view over what is typed, `typed` = {unit, lines, on, over}. It has `nodes`, `typed`, `ways`, `redraw()`, the words
 * of the keys, `tell(text)` for a sentence in the echo's place, and `ask(choices)`, for which the pad gives way.
 */
export function readView(ctx, about, typed) {
  const { field, level } = about;
  const kind = field.type;
  const ways = waysOf(field);
  const drawing = ctx.drawings.find((d) => d.id === `read-${about.feed?.as}`) ?? ctx.drawings.find((d) => d.id === `read-${field.id}`);
  const top = h("div", { class: ["top", !drawing && "bare"] });
  const figure = h("div", { class: "figure entry" });
  const first = level ? h("p", { class: "under" }) : null;
  const echo = h("p", { class: "echo", "aria-live": "polite" });
  const input = h("input", { class: "entry-input", type: "text", id: "figure", inputmode: ctx.settings.pad === "phone" ? "decimal" : "none", enterkeyhint: "next",
    autocomplete: "off", autocapitalize: "off", spellcheck: "false", "aria-label": field.say, oninput: () => typedIn(input.value) });
  const pad = h("div", { class: ["pad-place", ctx.settings.pad === "phone" && "strip-only"] });
  const stands = standsNow(ctx, about);
  if (typed.on === LEVEL || levelUntold(ctx, about)) typed.on = levelUntold(ctx, about) ? LEVEL : 0;
  let at = begin(typed.lines[typed.on] ?? "");
  let timer = 0;
  let told = null;  // a sentence about what was to be kept
  const wanted = h("span", null);

  const unit = () => (kind === "length" ? typed.unit : unitSign(field.ucum));
  const line = () => (typed.on === LEVEL ? typed.level ?? "" : typed.lines[typed.on]);

  function echoText() {
    if (!at.text.trim()) return "";
    if (kind !== "length") return "";
    if (at.face === 2 && !at.text.includes("/")) return say("then_den");
    if (unfinished(at)) return denMissing(unfinished(at));
    const text = withUnit(at.text, typed.unit);
    try {
      const nm = read(text);
      const to = /mm$/.test(text) ? "in" : "mm";
      if (ways && typed.on !== LEVEL && nm && !/^[+-]/.test(at.text.trim())) return say("which_way_short");
      const checked = typed.on === LEVEL ? {} : checkLength(at.text, typed.unit, limits(about, ways));
      return `= ${lengthText(nm, to)}${checked.far && !checked.minus ? `. ${say("far_short")}` : ""}`;
    } catch (fault) {
      return fault.readings?.length ? say("ask_back", { list: fault.readings.join(", ") }) : fault.message;
    }
  }

  function drawFigure() {
    const text = kind === "length" ? withUnit(at.text, typed.unit) || "" : at.text;
    const sign = /^\s*([+-])/.exec(at.text)?.[1];
    const way = ways && typed.on !== LEVEL && sign ? ways[sign === "-" ? 0 : 1] : null;
    const minus = !ways && sign === "-" ? "−" : null;
    fill(figure, way ? arrow(way.arrow) : null, minus, text ? figureNodes(text) : h("span", null, "\u00A0"),
      kind !== "length" && unit() ? h("span", { class: "unit" }, unit()) : null, way ? h("span", { class: "way" }, way.word) : null);
    figure.classList.toggle("waiting", !text);
    figure.classList.toggle("long", at.text.length > LONG);
    drawEcho();
    if (input.value !== at.text) input.value = at.text;
  }

  // one sentence at a time, where the figure is read
  function drawEcho() {
    const heard = echoText();
    echo.textContent = told ?? heard;
    const long = echo.textContent.length > LONG_SAID;
    echo.classList.toggle("wrong-said", Boolean(told) || (long && !heard.startsWith("=")));
    top.classList.toggle("tight", long || at.text.length > (ways ? LONG_WAY : LONG));
  }

  // the plan, or what is allowed, in the reader's unit
  function drawWanted() {
    const plan = planOf(field);
    const planned = plan && !ways && (kind === "length" || field.plan);
    const x = planned && (kind === "length" ? lengthText(plan, typed.unit) : `${plan} ${unitSign(field.ucum)}`.trim());
    wanted.textContent = planned ? say("plan", { x }) : allowanceText(field.expect, kind === "length", typed.unit, field.ucum);
  }

  function drawFirst() {
    if (!first) return;
    first.classList.toggle("asks", typed.on === LEVEL);
    const [a] = typed.lines;
    const way = /^[+-]/.test(a) ? ` ${ways[a[0] === "-" ? 0 : 1].key}` : "";
    first.textContent = typed.on === LEVEL ? say(view.tilt ? "over_title" : "level_title") : typed.on === 0 ? say("as_lies")
      : say("as_lay_turned", { x: `${withUnit(a, typed.unit).replace(/^[+-]/, "")}${way}` });
  }

  // the keys are made anew only when they are others; which of them is down is only marked
  let drawn = "";
  function drawPad() {
    const length = typed.on === LEVEL;
    const keys = [typed.unit, at.face, length].join();
    if (keys === drawn) return markPad(pad, at);
    drawn = keys;
    return fill(pad, padNode({ kind, unit: typed.unit, at, ways: length ? null : ways, minus: !ways && mayBeMinus(field), press: view.press, left: ctx.settings.strip === "left", last: length ? view.tilt ? null : ["whole-side", say("whole_side")] : undefined }));
  }

  // every touch: figure and echo; the pad only where its keys change
  function changed(next) {
    at = next;
    told = null;
    if (typed.on === LEVEL) typed.level = at.text; else typed.lines[typed.on] = at.text;
    drawFigure();
    nameAction();
    drawPad();
    clearTimeout(timer);
    timer = setTimeout(view.keepDraft, DRAFT_AFTER_MS);
  }
  function nameAction() {
    const action = document.getElementById("key-action");
    const words = view.actionSay();
    if (action && action.textContent !== words) action.textContent = words;
  }
  // a fraction begun by "and" goes on only while what stands is typed on, or rubbed out as far as its space
  const inFraction = (text) => text.includes("/") || (at.face === 2 && Boolean(text) && (text.startsWith(at.text) || (at.text.startsWith(text) && text.includes(" "))));
  const typedIn = (text) => changed({ text, face: inFraction(text) ? 2 : 1 });

  // hard keys and paste reach the figure wherever the focus is
  function onKeys(event) {
    if (event.target !== input && event.key?.length === 1 && !event.ctrlKey && !event.metaKey && event.key !== " ") input.focus();
    if (event.target !== input && event.key === "Backspace") { changed(press(at, "rub")); event.preventDefault(); }
  }
  function onPaste(event) {
    if (event.target === input) return;
    typedIn(event.clipboardData.getData("text").slice(0, 40));
    event.preventDefault();
  }
  const onHide = () => { if (document.visibilityState === "hidden") view.keepDraft(); };

  const view = {
    typed, ways, at: () => at, tilt: Boolean(about.feed?.as.startsWith("tilt.")),
    press(name) {
      if (name === "not-read") ctx.go(`#unit/${ctx.unit.id}/unread/${about.step.id}/${field.id}`);
      else if (name === "whole-side") view.over(0);
      else if (name === "rub" && !at.text && typed.on === 1) view.line(0);
      else changed(press(at, name));
    },
    tell(text) { told = text; drawEcho(); },
    keepDraft: () => view.closed || ctx.draft(about.key, { unit: typed.unit, lines: typed.lines, over: typed.over, level: typed.level, on: typed.on === LEVEL ? 0 : typed.on }).catch(() => ctx.say(say("not_drafted"), true)),
    sign(mark) { if (typed.on !== LEVEL) changed({ ...at, text: mark + at.text.trim() }); },
    sure: new Set(),  // texts kept as typed when asked
    settle(text) { typed.lines[typed.on] = text; at = begin(text); },
    line(on) { typed.on = on; told = null; at = begin(line()); view.redraw(); },
    fromLevel() { typed.level = ""; view.line(typed.lines[0].trim() ? 1 : 0); ctx.keys?.(view.keys()); },
    // the length of one's level is remembered, 0 a plumb line over the whole side; a tilt's belongs to the reading
    async over(nm) {
      if (view.tilt) typed.over = nm;
      else { await ctx.setting("level", nm); ctx.settings.level = nm; }
      view.fromLevel();
    },
    async swapUnit() { typed.unit = typed.unit === "in" ? "mm" : "in"; at = { ...at, face: /\//.test(at.text) ? 2 : 1 }; await ctx.setting("show", typed.unit); ctx.settings.show = typed.unit; view.redraw(); },
    unitKey: () => h("span", { class: "units" }, h("span", { class: typed.unit === "in" && "on" }, "in"), h("span", { class: typed.unit === "mm" && "on" }, "mm")),
    levelKey: () => (ownOver(ctx, about, typed.over) ? say(view.tilt ? "over" : "level_len", { x: lengthText(levelOf(ctx, about, typed.over), typed.unit).replace(/\u00A0(?=\D+$)/, " ") }) : say("whole_side")),
    askLevel() { view.line(LEVEL); ctx.keys?.(view.keys()); },
    actionSay: () => view.words?.() ?? say("keep_done"),
    ask(title, choices) { drawn = ""; fill(pad, h("div", { class: "ask", role: "group", "aria-label": title }, h("p", { class: "strong" }, title),
      choices.map(({ say: words, do: go }) => h("button", { type: "button", class: "key", onclick: go }, words)))); },
    redraw() {
      drawFirst(); drawFigure(); drawWanted(); drawPad();
      const units = document.querySelector(".row-b .units");
      if (units) units.replaceWith(view.unitKey());
      nameAction();
    },
    shut() { clearTimeout(timer); document.removeEventListener("keydown", onKeys); document.removeEventListener("paste", onPaste); document.removeEventListener("visibilitychange", onHide); view.keepDraft(); },
  };
  document.addEventListener("keydown", onKeys);
  document.addEventListener("paste", onPaste);
  document.addEventListener("visibilitychange", onHide);

  const saved = h("span", { class: "state", role: "status" });
  if (!stands.length) savedLine(ctx).then((nodes) => fill(saved, nodes));
  const last = stands.at(-1);
  const kept = last ? h("span", { class: "stands" }, say("stands_x", { x: keptText(last, ways) }), ", ", byWhom(ctx, last)) : saved;
  const how = field.how ? h("p", { class: "small how-long" }, field.how) : null;
  const body = h("div", { class: "figure-side", onclick: () => input.focus() }, input, figure, echo);
  fill(top, first, drawing ? svg(drawing.svg) : null, body, h("p", { class: "under" }, level ? null : wanted, kept));
  view.nodes = [top, how, pad];
  drawFirst(); drawFigure(); drawWanted(); drawPad();
  // unless one was just asked for: then another reading is what is wanted
  const another = about.sheet?.kind === "linear" && answerOf(ctx, about.sheet.name)?.answer.next?.of === about.feed.as;
  if (stands.length > 1 && !another && typed.on !== LEVEL && !typed.lines.some((text) => text.trim())) askWhich();

  // two that stand: both figures with person and time, one of them to be kept alone, or another reading
  function askWhich() {
    const all = stands.map((e) => e.id).sort();
    view.ask(say("stand_n", { n: stands.length }), [...stands.map((entry) => ({ say: [keptText(entry, ways), h("span", { class: "by" }, byWhom(ctx, entry))].flatMap((part, i) => (i ? [" ", part] : [h("span", null, say("keep_this_x", { x: part }))])), do: () => keepOne(entry, all) })),
      { say: say("measure_again"), do: () => view.redraw() }]);
  }
  async function keepOne(entry, all) {
    const again = ctx.make("reading", entry.value, { step: about.step.id, field: field.id, round: entry.round ?? null, replaces: all, sheet: about.feed?.sheet });
    if (await ctx.keep([again])) ctx.again();
  }
  return view;
}
