// Own settings: eyes and habits of one person, kept on this phone.
import { h } from "../dom.js";
import { read, say as sayLength } from "../lengths.js";
import { say } from "../words_phone.js";

const CHOICES = [
  ["set_show", "show", [["mm", "mm"], ["in", "in"]]],
  ["set_theme", "theme", [["sun", "sun"], ["blueprint", "blueprint"]]],
  ["set_pad", "pad", [["own", "own"], ["phone", "phone_keys"]]],
  ["set_strip", "strip", [["right", "right"], ["left", "left"]]],
];
const NM_PER_MM = 1e6;

export async function render(ctx) {
  const { settings } = ctx;
  const choose = (name, value) => async () => {
    await ctx.setting(name, value);
    return ctx.again();
  };
  const key = (name) => ([value, word]) => h("button", { type: "button", class: "choice", id: `${name}-${value}`,
    role: "radio", "aria-checked": String(settings[name] === value), onclick: choose(name, value) }, h("span", null, say(word)));

  const echo = h("p", { class: "echo", role: "status" }, said(settings.level));
  const level = h("input", { id: "level", type: "text", inputmode: "text", autocomplete: "off", enterkeyhint: "done",
    value: settings.level ? sayLength(settings.level / NM_PER_MM, settings.show) : "", oninput: heard });

  function said(nm) {
    if (!nm) return say(nm === 0 ? "level_side" : "level_none");
    return say("level_is", { a: sayLength(nm / NM_PER_MM, "mm"), b: sayLength(nm / NM_PER_MM, "in") });
  }

  // Kept as soon as it reads as a length; what does not read is said, and the one before stays.
  async function heard() {
    try {
      const text = level.value.trim();
      const nm = text ? read(/\d$/.test(text) ? `${text} ${settings.show}` : text) : null;
      echo.textContent = said(nm);
      await ctx.setting("level", nm);
    } catch (fault) {
      echo.textContent = fault.message;
    }
  }

  return {
    title: say("set_title"), still: true,
    main: [
      h("p", { class: "note" }, ctx.person.name),
      CHOICES.map(([word, name, values]) => h("section", { class: "field" }, h("h2", null, say(word)),
        h("div", { class: "choices", role: "radiogroup", "aria-label": say(word) }, values.map(key(name))))),
      h("div", { class: "field" }, h("label", { for: "level" }, say("set_level")), h("p", { class: "note" }, say("level_hint")), level, echo),
    ],
    right: { say: say("phone"), go: "#phone" },
    action: { say: say("done"), go: "#open" },
  };
}
