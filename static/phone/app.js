// The phone: boot, one screen at a time by the hash, the page's frame round it.
//
// A SCREEN is a module of screens/, named in routes.js, fetched when first opened, that exports
// `render(ctx)` → (promise of) what to show:
//   {title, main,           the h1; a node or list of nodes that follow it (cautions before fields)
//    overline?, head?,      text over the h1 ("Set and fix, step 3 of 9"); a node beside it (the unit's picture)
//    rowA?,                 text of row A's middle cell; else what is unsent or how the signal is
//    left?, right?, action?,  keys of row B: {say: text or nodes, go: "#…"} or {say, do: () => …}, with off?: true,
//                           class?: text, label?: text for a screen reader; Esc and the phone's own back press
//                           `left` (or go to its `back`), Enter presses `action`; a second touch waits until `do` is done
//    alert?,                a sentence above the title block, role=alert (the plan has changed, refused)
//    still?,                true: entries that arrive do not draw this screen anew (a number being typed)
//    shut?}                 called when the screen is left or drawn anew (stop timers, keep drafts)
//
// `ctx`, made anew for each drawing:
//   at                      the hash's named parts, {unit, step, field, stage, sheet, code}
//   person, settings        {id, name, roles, crew}; {show: "mm"|"in", theme: "sun"|"blueprint",
//                           strip: "right"|"left", pad: "own"|"phone", level: nm or null, tools, can_read}
//   setting(name, value)    kept for this person; promise
//   unit                    {id, number, code, short, job, crew, stage, waiting, packet, seen} (null off a unit's screens)
//   packet, hash, parts     the packet in use and its hash (null when it is not here yet), parts {hash: document}
//   sheet(name)             the sheet of that name from the packet's parts, and `sheetHash(name)`
//   drawings                [{id, step, say, svg}] of the packet, parts put in place
//   entries, state          entries that count (unsent on top, refused ones not) and their fold (state.md)
//   refused                 [{entry, why: {code, say, retry}}] of this unit, still to be put right
//   fresh                   null, or {since: Date, changed: [text]} when a newer plan is here; `takePlan()` takes it
//   make(kind, value, where) an entry on this unit, under this packet, by this person: `where` is {step, field,
//                           round, replaces, sheet: NAME, unit?}; nothing is kept yet
//   keep(entries)           one strict transaction; promise of true, or false (NOT SAVED stands on the screen and
//                           the value must stay in its field)
//   draft(key[, value])     what is being typed: read it, or keep it (null forgets it); key is free, per person
//   status(id)              promise of {is: "on this phone"|"sending"|"sent"|"refused", why?}
//   go(hash), again()       another screen; this one drawn anew, place and focus kept. `instead(hash)`: another
//                           screen at the same place of the phone's own history
//   keys({left, right, action})  other keys on the screen that stands, those that are named
//   say(text)               an alert above the title block until the next screen; null takes it away
//   store                   store.js, for what is not here
//
// CLASSES of the frame (styled in phone.css): body[data-screen]; main > .overline, .head > h1, then the screen's own;
// footer.title-block(.more-below) > .alerts > p.alert; .row-a > .cell.number, .cell.context, .cell.saved(.alarm) >
// svg + span, .cell.more; .row-b > button.key.left, button.key.right, button.key.action. Screens of the engine:
// .rows > .row (a button or link, 72 px: .row-picture, .row-name, .row-note), .field > label + input, .code-line,
// .pad.code-pad > button.key, .choices > button.choice[aria-pressed], .facts > dt + dd, p.note, p.warning, p.fault,
// .echo. html[data-theme="sun|blueprint"], html[data-strip="right|left"].
import { context } from "./context.js";
import * as frame from "./frame.js";
import * as nav from "./nav.js";
import { find } from "./routes.js";
import * as store from "./store.js";
import { start as startSync } from "./sync.js";
import { say as words } from "./words_phone.js";
import { start as startWorker } from "./worker.js";

const AHEAD_AFTER_MS = 1000;  // then what is opened next is fetched ahead: the first figure should not wait for it

let turn = 0;
let shown = { name: null, screen: {} };

function go(hash) {
  nav.move(hash);
  return draw();
}

function instead(hash) {
  nav.instead(hash);
  return draw();
}

/** Draws the present screen; `stay` keeps scroll and focus. */
async function draw(stay = false) {
  const mine = turn += 1;
  document.body.setAttribute("aria-busy", "true");
  const next = await screenFor(location.hash || "#open");
  if (mine !== turn) return;
  leave();
  shown = next;
  nav.arrived();
  frame.show(next.name, next.screen, next.ctx, stay);
  document.body.removeAttribute("aria-busy");
  Object.assign(document.body.dataset, { drawn: mine, at: location.hash });
}

// The screen that stands is shut once, before the next one is made: what the next starts (timers) is not for it to stop.
function leave() {
  const { shut } = shown.screen;
  shown.screen.shut = null;
  shut?.();
}

async function screenFor(hash) {
  try {
    const found = find(hash);
    if (!found) return { name: "fault", screen: nowhere() };
    fetchScreen(found.name).catch(() => {});  // on its way while the store answers; its fault is met below
    const ctx = await context(found.at, { go, instead, again: () => draw(true), say: frame.say });
    const name = standIn(found, ctx) ?? found.name;
    const module = await fetchScreen(name);
    leave();
    return { name, screen: await module.render(ctx), ctx };
  } catch (fault) {
    console.error(fault);
    return { name: "fault", screen: failed(fault) };
  }
}

const fetchScreen = (name) => import(`./screens/${name}.js`);

// What is shown first, whatever was asked for: who it is, a unit that is here, with its plan, and the right one.
function standIn({ name, at }, { person, unit, packet }) {
  if (!person) return name === "phone" ? name : "sign_in";
  if (!at.unit) return null;
  if (!unit) return "open_unit";
  return packet && unit.seen ? null : "is_it";
}

const nowhere = () => ({
  title: words("nowhere_title"), main: [words("nowhere")], action: { say: words("to_units"), do: () => go("#open") },
});

const failed = (fault) => ({
  title: words(fault.word ? "store_title" : "fault_title"),
  main: [fault.word ? words(fault.word) : words("fault_say", { why: fault.message })],
  left: { say: words("units"), do: () => go("#open") }, right: { say: words("phone"), do: () => go("#phone") },
  action: { say: words("try_again"), do: () => draw() },
});

function hear(what) {
  if (what.kind === "store") frame.say(words(what.word));
  const news = what.kind === "units" || what.kind === "session" || (what.kind === "entries" && (what.from === "office" || what.elsewhere));
  if (news && !shown.screen.still) draw(true);
  else frame.refresh();
}

async function boot() {
  frame.start();
  nav.start({ draw: () => draw(), left: () => shown.screen.left, press: frame.press });
  const opened = store.open().catch((fault) => console.error(fault));  // its fault is shown by the drawing that needs it
  store.onChange(hear);
  await opened;
  await draw();
  performance.mark("usable");
  startWorker();
  addEventListener("pageshow", () => store.probe().catch(() => {}));
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") store.probe().catch(() => {}); });
  startSync();
  setTimeout(() => ["read", "readings", "frame"].forEach((name) => fetchScreen(name).catch(() => {})), AHEAD_AFTER_MS);
}

boot();
