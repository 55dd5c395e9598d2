// Open a unit: by its code, typed on large keys, or from what is on this phone, nearest work first.
import { ALPHABET, check, normalise, shown } from "../codes.js";
import { h, fill, svg } from "../dom.js";
import { codePad } from "../code_pad.js";
import { whole } from "../packet.js";
import { say } from "../words_phone.js";

const EXAMPLE = "7K3-MQ";

// The stage a unit is at: as this phone has it, until the office says another.
const stageOf = ({ stage, here }) => (here && here.of === stage ? here.stage : stage);

// Nearest work first: what was opened last, then what is not finished, then by number; the list says so.
function nearest(a, b) {
  return (b.opened ?? 0) - (a.opened ?? 0) || Number(stageOf(b) !== null) - Number(stageOf(a) !== null)
    || a.number.localeCompare(b.number, undefined, { numeric: true });
}

const pathTo = (unit) => `#unit/${unit.id}`;

async function row(unit) {
  const plan = await whole(unit.inUse ?? unit.packet);
  const picture = plan?.packet.drawings?.find((drawing) => drawing.id === "unit");
  const text = picture?.svg ?? plan?.parts[picture?.part]?.svg;
  const at = stageOf(unit);
  const stage = at === null ? say("stages_over") : plan?.packet.stages?.find(({ id }) => id === at)?.say;
  return h("a", { class: "row", href: pathTo(unit), id: `unit-${unit.id}` },
    text ? h("span", { class: "row-picture", "aria-hidden": "true" }, svg(text)) : null,
    h("span", { class: "row-name" }, say("unit", { number: unit.number }), `, ${unit.job?.name ?? ""}`),
    h("span", { class: "row-note" }, plan ? [plan.packet.facts?.[0], stage && (at ? say("at_stage", { stage }) : stage), unit.short && shown(unit.short)].filter(Boolean).join(", ") : say("packet_missing")));
}

/** The unit that a label's code or a typed one names, among those carried; null when none. */
function byCode(units, text) {
  const code = normalise(text);
  return units.find((unit) => unit.code === code || unit.short === code) ?? null;
}

export async function render(ctx) {
  const units = (await ctx.store.units()).sort(nearest);
  const asked = ctx.at.code ?? null;
  const found = asked ? byCode(units, asked) : null;
  if (found) setTimeout(() => ctx.instead(pathTo(found)));
  let code = (await ctx.draft("code")) ?? "";
  const missed = (asked && !found) || (ctx.at.unit && !ctx.unit);
  const fault = h("p", { class: "code-fault", role: "alert", hidden: !missed }, say("not_carried"));
  const label = h("label", { for: "code", class: ["strong", missed && "hidden"] }, say("code", { example: EXAMPLE }));

  // in the label's place, so that no key is pushed out of sight
  function tell(text) {
    fault.textContent = text ?? "";
    fault.hidden = !text;
    label.classList.toggle("hidden", Boolean(text));
  }

  function open() {
    if (code.length < 5) return tell(say("code_five", { example: EXAMPLE }));
    const five = check(code);
    if (!five) return tell(say("code_wrong"));
    const unit = byCode(units, five);
    if (!unit) return tell(say("not_carried"));
    code = "";
    ctx.draft("code", null);
    return ctx.go(pathTo(unit));
  }

  const own = ctx.settings.pad === "own";
  const pad = h("div", { class: "pad-place" });
  const input = h("input", { id: "code", type: "text", class: "code-line", inputmode: own ? "none" : "text", autocomplete: "off",
    autocapitalize: "characters", spellcheck: "false", enterkeyhint: "go", placeholder: say("code_touch"), value: code,
    oninput: () => set(input.value), onfocus: () => own && showPad() });

  function set(text) {
    code = [...normalise(text)].filter((letter) => ALPHABET.includes(letter)).slice(0, 5).join("");
    input.value = code.length > 3 ? shown(code) : code;
    tell(null);
    ctx.draft("code", code || null);
    ctx.keys(keys());
  }
  const showPad = () => pad.firstChild ?? fill(pad, codePad((letter) => set(letter === null ? code.slice(0, -1) : code + letter)));

  function keys() {
    const first = units.find((unit) => stageOf(unit) !== null) ?? units[0];
    const action = code ? { say: say("open_do", { code: input.value }), do: open }
      : first ? { say: say("open_first", { number: first.number }), go: pathTo(first) }
        : { say: say("type_code"), do: () => input.focus() };
    return { right: { say: say("phone"), go: "#phone" }, left: { say: say("settings"), go: "#settings" }, action };
  }

  return {
    title: say("open_title"), still: Boolean(code),
    main: [
      label, fault, input, pad,
      h("h2", null, say("on_phone")), units.length > 1 ? h("p", { class: "note" }, say("on_phone_order")) : null,
      units.length ? h("nav", { class: "rows" }, await Promise.all(units.map(row))) : h("p", null, say("none")),
    ],
    ...keys(),
  };
}
