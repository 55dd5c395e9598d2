// The number screen's nodes, kept and changed in place: a key touched draws its figure, echo and pad anew, nothing else.
import { arrow } from "./shapes.js";
import { allowanceText, figureNodes, lengthText, unitSign } from "./dim.js";
import { fill, h, svg } from "./dom.js";
import { read } from "./lengths.js";
import { markPad, padNode } from "./pad.js";
import { begin, press, withUnit } from "./pad_keys.js";
import { checkLength, denMissing, limits, planOf, unfinished } from "./read_check.js";
import { savedCell } from "./row_a.js";
import { levelOf, waysOf } from "./ways.js";
import { say } from "./words.js";

const DRAFT_AFTER_MS = 300;
const LEVEL = 2;  // `on`: 0 and 1 are the lines, 2 the length of one's level

// What row A would say: this screen has no room for it.
async function savedLine(ctx) {
  const last = ctx.entries.findLast((entry) => entry.person === ctx.person.id);
  const { shape, text } = await savedCell(ctx, last ? new Date(last.at) : null, null, true);
  return [shape, text];
}

/**
 * The view over what is typed, `typed` = {unit, lines, on}. It has `nodes`, `typed`, `ways`, `redraw()`, the words of
 * the keys, and `ask(choices)`, for which the pad gives way.
 */
export function readView(ctx, about, typed) {
  const { field, level } = about;
  const kind = field.type;
  const ways = waysOf(field);
  const drawing = ctx.drawings.find((d) => d.id === `read-${about.feed?.as}`) ?? ctx.drawings.find((d) => d.id === `read-${field.id}`);
  const figure = h("div", { class: "figure entry" });
  const first = level ? h("p", { class: "under" }) : null;
  const echo = h("p", { class: "echo", "aria-live": "polite" });
  const input = h("input", { class: "entry-input", type: "text", id: "figure", inputmode: ctx.settings.pad === "phone" ? "decimal" : "none", enterkeyhint: "next",
    autocomplete: "off", autocapitalize: "off", spellcheck: "false", "aria-label": field.say, oninput: () => typedIn(input.value) });
  const pad = h("div", { class: ["pad-place", ctx.settings.pad === "phone" && "strip-only"] });
  let at = begin(typed.lines[typed.on] ?? "");
  let timer = 0;

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
    echo.textContent = echoText();
    if (input.value !== at.text) input.value = at.text;
  }

  function drawFirst() {
    if (!first) return;
    const [a] = typed.lines;
    const way = /^[+-]/.test(a) ? ` ${ways[a[0] === "-" ? 0 : 1].key}` : "";
    first.textContent = typed.on === LEVEL ? say("level_title") : typed.on === 0 ? say("as_lies")
      : say("as_lay_turned", { x: `${withUnit(a, typed.unit).replace(/^[+-]/, "")}${way}` });
  }

  // the keys are made anew only when they are others; which of them is down is only marked
  let drawn = "";
  function drawPad() {
    const keys = [typed.unit, at.face, typed.on === LEVEL].join();
    if (keys === drawn) return markPad(pad, at);
    drawn = keys;
    return fill(pad, padNode({ kind, unit: typed.unit, at, ways: typed.on === LEVEL ? null : ways, minus: !ways && (field.key === "signed" || field.ucum === "Cel" || field.expect?.from < 0), press: view.press, left: ctx.settings.strip === "left" }));
  }

  // every touch: figure and echo; the pad only where its keys change
  function changed(next) {
    at = next;
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
  const typedIn = (text) => changed({ text, face: text.includes("/") ? 2 : at.face });

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
    typed, ways, at: () => at,
    press(name) { if (name === "not-read") ctx.go(`#unit/${ctx.unit.id}/unread/${about.step.id}/${field.id}`); else if (name === "rub" && !at.text && typed.on === 1) view.line(0); else changed(press(at, name)); },
    keepDraft: () => view.closed || ctx.draft(about.key, { unit: typed.unit, lines: typed.lines, on: typed.on === LEVEL ? 0 : typed.on }).catch(() => ctx.say(say("not_drafted"))),
    sign(mark) { if (typed.on !== LEVEL) changed({ ...at, text: mark + at.text.trim() }); },
    sure: new Set(),  // texts kept as typed when asked
    settle(text) { typed.lines[typed.on] = text; at = begin(text); },
    line(on) { typed.on = on; at = begin(line()); view.redraw(); },
    async swapUnit() { typed.unit = typed.unit === "in" ? "mm" : "in"; at = { ...at, face: /\//.test(at.text) ? 2 : 1 }; await ctx.setting("show", typed.unit); ctx.settings.show = typed.unit; view.redraw(); },
    unitKey: () => h("span", { class: "units" }, h("span", { class: typed.unit === "in" && "on" }, "in"), h("span", { class: typed.unit === "mm" && "on" }, "mm")),
    levelKey: () => (levelOf(ctx, about) ? say("level_len", { x: lengthText(levelOf(ctx, about), typed.unit).replace(/\u00A0(?=\D+$)/, " ") }) : say("level_full")),
    askLevel: () => view.line(LEVEL),
    actionSay: () => view.words?.() ?? say("keep_done"),
    ask(title, choices) { drawn = ""; fill(pad, h("div", { class: "ask", role: "group", "aria-label": title }, h("p", { class: "strong" }, title),
      choices.map(({ say: words, do: go }) => h("button", { type: "button", class: "key", onclick: go }, words)))); },
    redraw() {
      drawFirst(); drawFigure(); drawPad();
      const side = document.getElementById("key-left");
      if (side?.querySelector(".units")) fill(side, view.unitKey());
      nameAction();
      const right = document.getElementById("key-right");
      if (right && level) right.textContent = view.levelKey();
    },
    shut() { clearTimeout(timer); document.removeEventListener("keydown", onKeys); document.removeEventListener("paste", onPaste); document.removeEventListener("visibilitychange", onHide); view.keepDraft(); },
  };
  document.addEventListener("keydown", onKeys);
  document.addEventListener("paste", onPaste);
  document.addEventListener("visibilitychange", onHide);

  const plan = planOf(field);
  const saved = h("span", { class: "state", role: "status" });
  savedLine(ctx).then((nodes) => fill(saved, nodes));
  const planned = plan && !ways && (kind === "length" || field.plan);
  const x = planned && (kind === "length" ? lengthText(plan, typed.unit) : `${plan} ${unitSign(field.ucum)}`.trim());
  const wanted = planned ? say("plan", { x }) : allowanceText(field.expect, kind === "length", typed.unit, field.ucum);
  const under = h("p", { class: "under" }, h("span", null, wanted), saved);
  const how = field.how ? h("p", { class: "small how-long" }, field.how) : null;
  const body = h("div", { class: "figure-side", onclick: () => input.focus() }, input, figure, echo);
  view.nodes = [h("div", { class: ["top", !drawing && "bare"] }, first, drawing ? svg(drawing.svg) : null, body, under), how, pad];
  drawFirst(); drawFigure(); drawPad();
  return view;
}
