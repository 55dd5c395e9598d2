// What belongs to the box is read once a day: what another unit of the same box has today is offered with one touch.
import { h } from "./dom.js";
import { justKept, replacing } from "./flow.js";
import { history, standing, timeOf } from "./look.js";
import { say } from "./words.js";

const others = new WeakMap();

// Entries of today on the other carried units of the same box: [{unit, entries}], once a drawing.
async function neighbours(ctx) {
  if (!others.has(ctx)) others.set(ctx, find(ctx));
  return others.get(ctx);
}

async function find(ctx) {
  const found = [];
  for (const unit of await ctx.store.units()) {
    if (unit.id === ctx.unit.id) continue;
    const packet = await ctx.store.packet(unit.inUse ?? unit.packet);
    const box = packet?.unit?.box;
    if (box && box === ctx.packet.unit.box) found.push({ unit, entries: await ctx.store.entries(unit.id) });
  }
  return found;
}

const today = (entry) => new Date(entry.at).toDateString() === new Date().toDateString();

/** The newest value of the same field that stands today on another unit of the box: {unit, entry}, or null. */
async function asRead(ctx, step, field) {
  const made = (await neighbours(ctx)).flatMap(({ unit, entries }) => {
    const gone = new Set(entries.flatMap((e) => e.replaces));
    return entries.filter((e) => e.step === step.id && e.field === field.id && e.kind !== "retract" && !gone.has(e.id) && today(e)).map((entry) => ({ unit, entry }));
  });
  return made.sort((a, b) => (a.entry.at < b.entry.at ? -1 : 1)).at(-1) ?? null;
}

/** "As read for unit 06 at 08:40. Still so?" with its key, or null. Taking it over is an entry of today by this person. */
export async function boxOffer(ctx, step, field) {
  if (!field.of_box || standing(ctx, step.id, field.id).length || history(ctx, step.id, field.id).some((e) => e.kind === "retract")) return null;
  const had = await asRead(ctx, step, field);
  if (!had) return null;
  const { valueText } = await import("./field.js");
  const take = async () => {
    const entry = ctx.make(had.entry.kind, had.entry.value, { step: step.id, field: field.id, replaces: replacing(ctx, step, field, null), sheet: field.feeds?.[0]?.sheet });
    if (await ctx.keep([entry])) { justKept([entry]); ctx.again(); }
  };
  return h("div", { class: "offer" }, h("p", null, say("box_offer", { unit: had.unit.number, time: timeOf(had.entry.at), value: valueText(had.entry, field) })),
    h("button", { type: "button", class: "key", id: `offer-${field.id}`, onclick: take }, say("still_so")));
}
