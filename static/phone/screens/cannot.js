// A move that cannot be done: no room, a corner already fixed, or it will not move. Each is an entry; the answer is made anew.
import { roundOf } from "../answers.js";
import { h } from "../dom.js";
import { homeStep, replacing } from "../flow.js";
import { feeding, noPlan } from "../look.js";
import { known, say } from "../words.js";

// Places with room that the move needs and corners it takes along, where the plan has a field for them.
function choices(ctx, name, move) {
  const sheet = ctx.sheet(name);
  const means = sheet.rooms?.means ?? {};
  const places = Object.keys(move.needs ?? {}).flatMap((place) => means[place] ?? [place]);
  const at = (place) => sheet.rooms?.say?.[place] ?? (known(`place.${place}`) ? say(`place.${place}`) : place);
  const corner = (id) => sheet.corners?.[id] ?? id;
  return [
    ...places.map((place) => ({ at: feeding(ctx, name, `room.${place}`), words: say("no_room", { place: at(place) }), kind: "reading", value: { text: "0 mm", nm: 0 } })),
    ...(move.takes ?? []).map((id) => ({ at: feeding(ctx, name, `fixed.${id}`), words: say("is_fixed", { corner: corner(id).replace(/^./, (c) => c.toUpperCase()) }), kind: "tick", value: { ticked: true } })),
  ].filter(({ at }) => at);
}

export function render(ctx) {
  const { sheet: name, move: what } = ctx.at;
  const move = ctx.packet && ctx.sheet(name)?.corrections?.find((one) => one.do === what);
  if (!move) return noPlan(ctx);
  const step = homeStep(ctx, name);
  const to = `#unit/${ctx.unit.id}/frame/${name}`;
  const round = roundOf(ctx, name);
  const keep = async ({ at, kind, value }) => {
    const where = { step: at.step.id, field: at.field.id, round: kind === "reading" ? round : null, sheet: name };
    if (await ctx.keep([ctx.make(kind, value, { ...where, replaces: replacing(ctx, at.step, at.field, where.round) })])) ctx.go(to);
  };
  const wont = async () => {
    if (!await ctx.keep([ctx.make("note", { text: say("will_not_note", { say: move.say.verb ?? what }) }, { step: step.id })])) return;
    const key = `will-not/${ctx.unit.id}/${round ?? ""}`;
    await ctx.draft(key, [...(await ctx.draft(key) ?? []), what]);
    ctx.go(to);
  };
  const key = (id, words, press) => h("button", { type: "button", class: "key", id, onclick: press }, words);
  return {
    title: say("cannot_title"), overline: (move.say.verb ?? what).replace(/^./, (c) => c.toUpperCase()),
    main: [h("div", { class: "gap" }), h("div", { class: "choices" }, choices(ctx, name, move).map((choice, i) => key(`cannot-${i}`, choice.words, () => keep(choice))), key("cannot-wont", say("will_not"), wont))],
    action: { say: say("to_moves"), go: to },  // the only way back, as the phone's own is
  };
}
