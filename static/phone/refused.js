// What the office refused of this person's entries, and what to do about each. Nothing of it goes away by itself.
import { h } from "./dom.js";
import { shape } from "./shape_svg.js";
import { say } from "./words_phone.js";

const FIGURES = new Set(["reading"]);

/** What an entry says, in a line. */
export function lineOf(entry, unit) {
  const { text, chosen, ticked, because, number } = entry.value;
  const value = text ?? chosen ?? (ticked === undefined ? because ?? number ?? entry.kind : ticked ? "✓" : "–");
  return say("refused_entry", { unit: unit ? say("unit", { number: unit.number }) : "", step: entry.field ?? entry.step ?? entry.kind, value });
}

// Where the same thing is recorded anew: the number screen for a figure, else the step, else the unit.
function placeOf({ unit, step, field, kind }) {
  if (kind === "signoff") return `#unit/${unit}/sign`;
  if (!step) return `#unit/${unit}`;
  return FIGURES.has(kind) ? `#unit/${unit}/read/${step}/${field}` : `#unit/${unit}/step/${step}`;
}

// A remark that tells the office of it: kept, and sent like any other entry.
async function tellOffice(ctx, { entry, why }) {
  const text = `Refused (${why.code}): ${entry.kind} ${entry.step ?? ""} ${entry.field ?? ""} ${JSON.stringify(entry.value)}`.slice(0, 4000);
  const note = ctx.make("note", { text }, { unit: entry.unit, step: entry.step });
  if (await ctx.keep([note])) await ctx.again();
}

/** Nodes, one an entry: what, why, and two keys. */
export async function refusals(ctx) {
  const rows = await ctx.store.allRefused();
  const units = new Map((await ctx.store.units()).map((unit) => [unit.id, unit]));
  return rows.map((row) => h("div", { class: "refusal" },
    h("p", { class: "state" }, shape("refused"), h("b", null, lineOf(row.entry, units.get(row.entry.unit)))),
    h("p", null, say("refused_say", { why: row.why.say })),
    h("div", { class: "keys" },
      h("button", { type: "button", onclick: () => ctx.go(placeOf(row.entry)) }, say("correct")),
      h("button", { type: "button", onclick: () => tellOffice(ctx, row) }, say("tell_office")))));
}
