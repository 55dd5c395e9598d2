// The phone: boot, one screen at a time by the hash, the page's frame round it.
//
// A SCREEN is a module of screens/, named in routes.js, fetched when first opened, that exports
// `render(ctx)` → (promise of) what to show:
//   {title, main,           the h1; a node or list of nodes that follow it (cautions before fields)
//    overline?, head?,      text over the h1 ("Set and fix, step 3 of 9"); a node beside it (the unit's picture)
//    rowA?,                 text of row A's middle cell; else what is unsent or how the signal is
//    left?, right?, action?,  keys of row B: {say, go: "#…"} or {say, do: () => …, off?: true}; Esc and the
//                           phone's own back press `left`, Enter presses `action`
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
//   go(hash), again()       another screen; this one drawn anew, place and focus kept
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
import { deepLink, find } from "./routes.js";
import * as store from "./store.js";
import { start as startSync } from "./sync.js";
import { start as startWorker } from "./worker.js";

let turn = 0;
let shown = { name: null, screen: {} };

/** Opens the screen under `hash`; the same hash draws it anew. */
export function go(hash) {
  const wanted = hash.startsWith("#") ? hash : `#${hash}`;
  if (wanted !== location.hash) history.pushState({ n: (history.state?.n ?? 0) + 1 }, "", wanted);
  return draw();
}

/** Draws the present screen; `stay` keeps scroll and focus. */
async function draw(stay = false) {
  const mine = turn += 1;
  const next = await screenFor(location.hash || "#open");
  if (mine !== turn) return;
  shown.screen.shut?.();
  shown = next;
  frame.show(next.name, next.screen, next.ctx, stay);
}

async function screenFor(hash) {
  let name = "fault";
  try {
    const found = find(hash);
    if (!found) return { name, screen: notFound(), ctx: null };
    const ctx = await context(found.at, { go, again: () => draw(true), say: frame.say });
    name = ctx.person ? found.name : "sign_in";
    const module = await import(`./screens/${name}.js`);
    return { name, screen: await module.render(ctx), ctx };
  } catch (fault) {
    console.error(fault);
    return { name, screen: failed(fault), ctx: null };
  }
}

const notFound = () => ({
  title: "Nothing here", main: ["Nothing here under that address. Open a unit."], action: { say: "Units on this phone", go: "#open" },
});

const failed = (fault) => ({
  title: fault.title ?? "We failed, not you",
  main: [fault.say ?? `Nothing is lost that was saved. Go back and try again. (${fault.message})`],
  left: { say: "Units", go: "#open" }, right: { say: "Phone", go: "#phone" },
  action: { say: "Try again", do: () => draw() },
});

// The phone's own back does what the left key does: the entry that back came upon takes the left key's hash.
let depth = 0;
function onPop(event) {
  const back = event.state && event.state.n < depth;
  const left = shown.screen.left;
  if (back && left && !left.off) {
    if (left.go) history.replaceState(history.state, "", left.go);
    else { history.forward(); return void frame.press(left); }
  }
  if (!event.state) history.replaceState({ n: depth + 1 }, "", location.href);
  depth = history.state.n;
  return draw();
}

async function boot() {
  const code = deepLink(location.pathname);
  const hash = code ? `#open/${code}` : location.hash || "#open";
  history.replaceState({ n: 0 }, "", `/${hash}`);
  frame.start();
  addEventListener("popstate", onPop);
  store.onChange((what) => {
    if (what.kind === "entries" && what.from === "office" && !shown.screen.still) draw(true);
    frame.refresh();
  });
  startWorker();
  await draw();
  startSync();
}

boot();
