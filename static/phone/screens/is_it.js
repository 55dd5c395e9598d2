// Is it this one? The label may sit on another box: seen once, before the first entry.
import { h, svg } from "../dom.js";
import { say } from "../words_phone.js";
import { shown } from "../codes.js";

const facts = (packet) => (packet.facts ?? []).map((line) => h("p", { class: "strong" }, line));

export async function render(ctx) {
  const { unit, packet } = ctx;
  const picture = ctx.drawings?.find((drawing) => drawing.id === "unit");
  const known = [["unit_code", unit.short && shown(unit.short)], ["crew", unit.crew?.name]];
  const confirm = async () => {
    await ctx.store.noteUnit(unit.id, { seen: true });
    return ctx.instead(`#unit/${unit.id}`);
  };
  return {
    overline: say("unit", { number: unit.number }),
    title: packet ? say("this_title") : say("unit", { number: unit.number }),
    main: [
      packet ? h("p", null, say("this_why")) : h("p", { class: "warning" }, say("no_plan")),
      picture ? [h("div", { class: "label-picture" }, svg(picture.svg)), facts(packet)] : null,
      h("dl", { class: "facts" }, known.filter(([, value]) => value).map(([key, value]) => [h("dt", null, say(key)), h("dd", null, value)])),
    ],
    left: { say: say("other_unit"), go: "#open" },
    right: { say: say("phone"), go: "#phone" },
    action: packet ? { say: say("this_is"), do: confirm } : { say: say("to_units"), go: "#open" },
  };
}
