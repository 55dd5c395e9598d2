// The page round a screen: heading, alerts, title block with row A (what is saved) and row B (the keys).
import { fill, h } from "./dom.js";
import { contextText, savedCell } from "./row_a.js";
import { say as words } from "./words_phone.js";

const LARGE = 20;   // px, of 16 as it comes

const part = (id) => document.getElementById(id);
let present = {};   // the screen that stands
let alarm = null;   // NOT SAVED, until the next keep that succeeds
let told = null;    // what the screen said

/** Draws `screen`, named `name`; `stay` keeps scroll and focus, else the heading takes it. */
export function show(name, screen, ctx, stay) {
  const main = part("main");
  const at = { top: main.scrollTop, id: stay ? document.activeElement?.id : null };
  if (!stay) { told = null; alarm = null; }
  present = { ...screen, ctx };
  document.body.dataset.screen = name;
  theme(ctx?.settings ?? {});
  document.title = `${screen.title}, fieldapp`;
  const title = h("h1", { tabindex: -1 }, screen.title);
  fill(main, screen.overline ? h("p", { class: "overline" }, screen.overline) : null,
    screen.head ? h("div", { class: "head" }, screen.head, title) : title, screen.main);
  keys();
  refresh();
  main.scrollTop = stay ? at.top : 0;
  const focused = at.id ? part(at.id) : stay ? null : title;
  focused?.focus({ preventScroll: stay });
}

function theme({ theme: colours = "sun", strip = "right" }) {
  Object.assign(document.documentElement.dataset, { theme: colours, strip });
  const paper = getComputedStyle(document.body).backgroundColor;
  document.querySelector("meta[name=theme-color]").content = paper;
}

function keys() {
  const { left, right, action } = present;
  fill(document.querySelector(".row-b"), button(left, "left"), button(right, "right"), button(action, "action"));
}

/** Other keys on the screen that stands. */
export function rekey(changed) {
  Object.assign(present, changed);
  keys();
}

function button(key, side) {
  if (!key) return null;
  return h("button", { type: "button", id: `key-${side}`, class: ["key", side, key.class], disabled: key.off,
    "aria-label": key.label, onclick: () => press(key) }, key.say);
}

let busy = false;

/** Does what a key of row B says; a second touch while it is being done does nothing. */
export async function press(key) {
  if (!key || key.off || busy) return;
  busy = true;
  try {
    await (key.do ? key.do() : present.ctx?.go(key.go) ?? (location.hash = key.go));
  } catch (fault) {
    console.error(fault);
    say(words("fault_say", { why: fault.message }));
  } finally {
    busy = false;
  }
}

/** An alert above the title block until the next screen; null takes it away. `lesser`: NOT SAVED says it already. */
export function say(text, lesser = false) {
  if (lesser && alarm) return;
  told = text;
  alerts();
}

/** What came of keeping: a time, or a StoreFault, which stands until a later keep succeeds. */
export function kept(outcome) {
  alarm = outcome instanceof Date ? null : words("not_saved_why", { why: words(outcome.word ?? "store_failed") });
  if (alarm) told = null;
  present.savedAt = outcome instanceof Date ? outcome : null;
  alerts();
  return refresh();
}

function alerts() {
  const lines = [alarm, told, present.alert].filter(Boolean);
  fill(document.querySelector(".alerts"), lines.map((line) => h("p", { class: "alert", role: "alert" }, line)));
  more();
}

// Whether the person's letters are so large that row A has no room for a sentence.
const large = () => parseFloat(getComputedStyle(document.documentElement).fontSize) > LARGE;

let wanted = 0;

/** Draws row A anew: the unit, what the screen says or how the signal is, what is saved. */
export async function refresh() {
  const mine = wanted += 1;
  const { ctx, rowA, savedAt } = present;
  const context = contextText(ctx, rowA);
  let saved = { text: "" };
  try {
    saved = await savedCell(ctx, savedAt, alarm, context.length > 0 || large());
  } catch (fault) {
    told = words(fault.word ?? "store_failed_open");
  }
  if (mine !== wanted) return;
  const cell = (name, ...inner) => h("span", { class: ["cell", ...name.split(" ")] }, ...inner);
  fill(document.querySelector(".row-a"), ctx?.unit ? cell("number", ctx.unit.number) : null,
    cell("context", h("span", null, context.map((words) => h("span", null, words)))), cell("more", words("more")),
    cell(saved.alarm ? "saved alarm" : "saved", saved.shape, h("span", null, saved.text)));
  alerts();
}

function more() {
  const main = part("main");
  const foot = main.getBoundingClientRect().bottom;
  const below = [...main.querySelectorAll(".move")].filter((move) => move.getBoundingClientRect().bottom > foot + 4).length;
  const cell = document.querySelector(".row-a .more");
  const said = below ? words("more_n", { n: below }) : words("more");
  if (cell && cell.textContent !== said) cell.textContent = said;  // else a screen reader hears it at every touch
  part("title-block").classList.toggle("more-below", main.scrollHeight - main.scrollTop - main.clientHeight > 4);
}

const OWN_ENTER = "button, a, summary, textarea, select";

function onKey(event) {
  if (event.defaultPrevented || event.isComposing || event.repeat) return;
  if (event.key === "Escape" && present.left) press(present.left.back ? { go: present.left.back } : present.left);
  else if (event.key === "Enter" && !event.target.closest?.(OWN_ENTER)) press(present.action);
  else return;
  event.preventDefault();
}

export function start() {
  fill(part("title-block"), h("div", { class: "alerts" }), h("div", { class: "row-a", role: "status" }), h("div", { class: "row-b" }));
  document.addEventListener("keydown", onKey);
  part("main").addEventListener("scroll", more, { passive: true });
  addEventListener("resize", more);
  part("main").addEventListener("toggle", more, true);
}
