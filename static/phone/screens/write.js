// A line of text or a date: kept as a note of its field.
import { h } from "../dom.js";
import { hasScreen, justKept, leftKey, naming, nextField, readHash, replacing, shut } from "../flow.js";
import { standing } from "../look.js";
import { roundOfField } from "../answers.js";
import { say } from "../words.js";

const DATE = /^\d{4}-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?$/;
const two = (n) => String(n).padStart(2, "0");
/** Today as the phone has it: 2026-11-25. */
export const today = (now = new Date()) => `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;

const box = (field, text, heard) => (field.type === "date"
  ? h("input", { id: "written", type: "text", inputmode: "numeric", value: text, placeholder: false, autocomplete: "off", enterkeyhint: "done", "aria-label": field.say, oninput: heard })
  : h("textarea", { id: "written", rows: 4, maxlength: 4000, value: text, "aria-label": field.say, oninput: heard }));

/** The screen for a `text` or `date` field. */
export async function render(ctx, about) {
  const { step, field, key } = about;
  const had = standing(ctx, step.id, field.id).at(-1)?.value.text ?? (field.fill === "today" ? today() : "");
  const text = await ctx.draft(key) ?? had;
  let timer = 0;
  const keepDraft = () => ctx.draft(key, area.value).catch(() => ctx.say(say("not_drafted"), true));
  const area = box(field, text, () => { clearTimeout(timer); timer = setTimeout(keepDraft, 300); });
  const next = nextField(ctx, step, [field.id]);
  const go = next && hasScreen(next) ? readHash(ctx, step, next) : `#unit/${ctx.unit.id}/step/${step.id}`;
  const keep = async () => {
    const written = area.value.trim();
    if (!written) return ctx.say(say("nothing"));
    if (field.type === "date" && !DATE.test(written)) return ctx.say(say("date_what"));
    clearTimeout(timer);
    const round = roundOfField(ctx, field);
    const entry = ctx.make("note", { text: written }, { step: step.id, field: field.id, round, replaces: replacing(ctx, step, field, round), sheet: about.feed?.sheet });
    if (!await ctx.keep([entry])) return null;
    await ctx.draft(key, null).catch(() => null);
    justKept([entry]);
    return ctx.go(go);
  };
  const fillToday = field.type === "date" ? h("button", { type: "button", class: "key", id: "today", onclick: () => { area.value = today(); keepDraft(); } }, say("today")) : null;
  return {
    title: field.say, still: true, main: [field.how ? h("p", null, field.how) : null, h("div", { class: "push" }), h("div", { class: "field" }, field.type === "date" ? h("p", { class: "small" }, say("date_how")) : null, area), fillToday],
    left: leftKey(ctx, { say: say("all_fields"), go: `#unit/${ctx.unit.id}/step/${step.id}` }),
    action: { say: next ? naming("keep", next) : say("keep_text"), do: keep }, shut: () => { clearTimeout(timer); shut(); },
  };
}
