// A field on its step: dimension line, two keys, rows to choose from, or a line of text; under it what is wrong with it.
import { allowanceText, dimLine, lengthText, readingText } from "./dim.js";
import { answerOf, tell, sheetsOf, roundOf, roundOfField } from "./answers.js";
import { boxOffer } from "./of_box.js";
import { h } from "./dom.js";
import { justKept, readHash, replacing } from "./flow.js";
import { feedOf, history, personName, standing, stepState, timeOf } from "./look.js";
import { otherRow } from "./steps.js";
import { stateLine } from "./shapes.js";
import { farOff } from "./read_check.js";
import { waysOf } from "./ways.js";
import { say } from "./words.js";

const MOST_SHOWN = 3;  // of the readings that stand in one round: each by its figure

/** inside, outside, too close to call, or null where nothing judges the field's value. */
export function fieldVerdict(ctx, step, field) {
  const st = stepState(ctx, step.id);
  if (st.outside.includes(field.id)) return "outside";
  if (st.unsettled.includes(field.id)) return "too close to call";
  const feed = feedOf(field);
  const judged = feed && ctx.state.sheets[feed.sheet]?.verdicts?.[feed.as];
  if (judged) return judged;
  return st.values[field.id]?.length && field.expect ? "inside" : null;
}

// below the middle of what is allowed the bubble left to the left
function low(field, entry) {
  const value = entry.value.nm ?? entry.value.number;
  const { from = null, to = null } = field.expect ?? {};
  return from === null && to === null ? value < 0 : from === null ? false : to === null ? true : value < (from + to) / 2;
}

// "± 1.6 mm": the field's own limit, else that of the judged quantity its sheet has under the same name.
function allowance(ctx, field) {
  const own = allowanceText(field.expect, field.type === "length", ctx.settings.show, field.ucum);
  const feed = feedOf(field);
  const judged = !own && feed && ctx.sheet(feed.sheet)?.judged?.find((j) => j.what === feed.as);
  return judged?.tolerance ? `±\u00A0${lengthText(judged.tolerance * 1e6, ctx.settings.show)}` : own;
}

function manner(ctx, field, entry, way, here) {
  const who = (e) => (e.person === ctx.person.id ? timeOf(e.at) : say("by_at", { who: personName(ctx, e.person), time: timeOf(e.at) }));
  if (here.length > 1) return [say("n_readings", { n: here.length }), ...here.slice(-MOST_SHOWN).map((e) => `${valueText(e, field)}, ${who(e)}`)].join("; ");
  const words = [way?.word, entry.value.reversed ? say("reversed") : field.level ? say("not_turned") : null,
    entry.person !== ctx.person.id ? personName(ctx, entry.person) : null].filter(Boolean);
  return words.length ? words.join(", ") : timeOf(entry.at);
}

// Whether what the step judges is read in this field: then it is wanted, though another reading may stand for it.
const answering = (step, field) => step.answers?.some(({ sheet, judged }) => judged.includes(feedOf(field, sheet)?.as));

function figureField(ctx, step, field) {
  const all = standing(ctx, step.id, field.id);
  const round = roundOfField(ctx, field);
  const here = all.filter((e) => (e.round ?? null) === round);
  const entry = (here.length ? here : all).at(-1);
  const allowed = allowance(ctx, field);
  const common = { go: readHash(ctx, step, field), name: field.say, allowance: allowed || (field.required ? "" : say("optional")) };
  if (!entry) return dimLine({ ...common, how: field.how, empty: allowed && !field.required && !answering(step, field) ? say("touch_if") : undefined });
  const ways = waysOf(field);
  const value = entry.value.nm ?? entry.value.number;
  const way = ways && value ? ways[value < 0 ? 0 : 1] : null;
  return dimLine({ ...common, text: readingText(entry), way, verdict: fieldVerdict(ctx, step, field) === "outside" || !farOff(ctx, step, field).includes(entry) ? fieldVerdict(ctx, step, field) : "far", flipped: low(field, entry), manner: manner(ctx, field, entry, way, here) });
}

function textField(ctx, step, field) {
  const entry = standing(ctx, step.id, field.id).at(-1);
  return dimLine({ go: readHash(ctx, step, field), name: field.say, allowance: field.required ? "" : say("optional"), empty: say("touch_write"),
    text: entry?.value.text ?? null, plain: true, verdict: entry ? null : "not read", manner: entry ? timeOf(entry.at) : "" });
}

/** Keeps a tick or a choice, with the answers of its step's sheets that it follows. */
export async function keepAnswer(ctx, step, field, kind, value, chosen = null) {
  const round = roundOfField(ctx, field);
  const rounds = Object.fromEntries(sheetsOf(step).map((name) => [name, roundOf(ctx, name)]));
  const told = tell(ctx, sheetsOf(step), step.id, { round: rounds, chosen });
  const entry = ctx.make(kind, value, { step: step.id, field: field.id, round, replaces: replacing(ctx, step, field, round), sheet: feedOf(field)?.sheet });
  if (!await ctx.keep([...told, entry])) return false;
  justKept([entry]);
  return true;
}

function tickField(ctx, step, field) {
  const entry = standing(ctx, step.id, field.id).at(-1);
  const press = async (ticked) => {
    if (!await keepAnswer(ctx, step, field, "tick", { ticked })) return;
    if (ticked || field.no) ctx.again(); else ctx.go(`#unit/${ctx.unit.id}/note/${step.id}/${field.id}`);
  };
  const key = (ticked, words) => h("button", { type: "button", class: "key", id: `tick-${field.id}-${ticked}`, "aria-pressed": String(entry?.value.ticked === ticked), onclick: () => press(ticked) }, words);
  return h("div", { class: "asked", role: "group", "aria-labelledby": `say-${field.id}` },
    h("p", { class: "strong", id: `say-${field.id}` }, field.say, field.required ? null : h("span", { class: "small" }, ` ${say("optional")}`)),
    field.how && !entry ? h("p", { class: "small" }, field.how) : null,
    h("div", { class: "keys" }, key(true, field.yes ?? say("done")), key(false, field.no ?? say("not_done"))),
    entry && !entry.value.ticked && fieldVerdict(ctx, step, field) ? stateLine(fieldVerdict(ctx, step, field), timeOf(entry.at)) : null);
}

/** The rivet row that a step's sheet answers, where its choice stands: {row, say: [text]}; `row` null: not told yet, or
 *  so near another row that the stack is measured again. Null: no such choice. */
export function rowTold(ctx, step, field) {
  const made = field.id === "row" && (step.answers ?? []).map((a) => answerOf(ctx, a.sheet)).find((one) => one?.sheet.rows);
  return made ? { row: !made.answer.pick?.measure_again && field.options.some(({ id }) => id === made.answer.row) ? made.answer.row : null, say: [made.answer.say ?? []].flat().filter((text) => typeof text === "string") } : null;
}

function choiceField(ctx, step, field) {
  const told = rowTold(ctx, step, field);
  const entry = standing(ctx, step.id, field.id).at(-1);
  const press = async (id) => { if (await keepAnswer(ctx, step, field, "choice", { chosen: id }, field.id === "row" ? id : null)) ctx.again(); };
  return h("div", { class: "asked", role: "radiogroup", "aria-labelledby": `say-${field.id}` },
    h("p", { class: "strong", id: `say-${field.id}` }, field.say, field.required ? null : h("span", { class: "small" }, ` ${say("optional")}`)),
    field.how && !entry ? h("p", { class: "small" }, field.how) : null,
    told?.say.length ? h("p", { class: "answer" }, told.say[0]) : null,
    field.options.map(({ id, say: words }) => h("button", { type: "button", role: "radio", class: "choice", id: `choice-${field.id}-${id}`, "aria-checked": String(entry?.value.chosen === id), onclick: () => press(id) }, h("span", null, words, told?.row === id ? h("span", { class: "small" }, `, ${say("row_told")}`) : null))),
    entry && fieldVerdict(ctx, step, field) === "outside" ? stateLine("outside", timeOf(entry.at)) : null,
    field.id === "row" ? otherRow(ctx, step).map((words) => h("p", null, stateLine("outside", words))) : null);
}

// Two that stand: both figures with person and time, and the two ways out.
function pairField(ctx, step, field) {
  const ids = new Set(history(ctx, step.id, field.id).flatMap((e) => e.replaces));
  const two = history(ctx, step.id, field.id).filter((e) => !ids.has(e.id));
  const keep = async (entry) => {
    const all = two.map((e) => e.id).sort();
    const again = ctx.make(entry.kind, entry.value, { step: step.id, field: field.id, round: entry.round, replaces: all, sheet: feedOf(field)?.sheet });
    if (await ctx.keep([again])) ctx.again();
  };
  return h("div", { class: "alert" }, h("p", { class: "strong" }, field.say), stateLine("two stand", null), h("p", null, say("two_stand")),
    two.map((entry) => h("div", { class: "account" }, h("p", { class: "large" }, valueText(entry, field)), h("p", null, say("by_at", { who: personName(ctx, entry.person), time: timeOf(entry.at) })),
      h("button", { type: "button", class: "key", onclick: () => keep(entry) }, say("keep_this")))),
    h("a", { class: "key", href: readHash(ctx, step, field) }, say("measure_again")));
}

/** A kept value in words. */
export function valueText(entry, field) {
  if (entry.kind === "tick") return entry.value.ticked ? field?.yes ?? say("done") : field?.no ?? say("not_done");
  if (entry.kind === "choice") return field?.options?.find((o) => o.id === entry.value.chosen)?.say ?? entry.value.chosen;
  if (entry.kind === "retract") return `${say("retracted")}: ${entry.value.because}`;
  if (entry.kind !== "reading") return entry.value.text ?? "";
  const ways = field && waysOf(field);
  const value = entry.value.nm ?? entry.value.number;
  return `${readingText(entry)}${ways && value ? ` ${ways[value < 0 ? 0 : 1].word}` : ""}`;
}

// "130°, allowed 90 to 95. Recorded." and what to do
function outsideSay(ctx, step, field) {
  const [entry, limit] = [standing(ctx, step.id, field.id).at(-1), allowance(ctx, field)];
  if (entry?.kind !== "reading" || !limit) return null;
  const moves = ctx.sheet(feedOf(field)?.sheet)?.corrections?.length;
  return h("p", { class: "outside-say" }, say("outside_say", { x: valueText(entry, field), y: limit, then: say(stepState(ctx, step.id).is === "passed" ? "then_passed" : step.concession === false ? "then_right" : moves ? "then_moves" : "then_ask") }));
}

/** A field's value that is outside, with its limit: "Stop angle: 130°, allowed 90° to 95°"; null where it has no such figure. */
export function outsideLine(ctx, step, field) {
  const [entry, limit] = [standing(ctx, step.id, field.id).at(-1), allowance(ctx, field)];
  return entry && limit ? say("outside_line", { say: field.say, x: valueText(entry, field), y: limit }) : null;
}

const KINDS = { tick: tickField, choice: choiceField, text: textField, date: textField };

/** The nodes of a field; a promise, since what was read for the box stands in other units. */
export async function fieldNodes(ctx, step, field) {
  const pair = stepState(ctx, step.id).pairs.includes(field.id);
  const verdict = fieldVerdict(ctx, step, field);
  const refused = ctx.refused.filter(({ entry }) => entry.step === step.id && entry.field === field.id);
  return h("div", { class: "field-place", id: `field-${field.id}` }, pair ? pairField(ctx, step, field) : (KINDS[field.type] ?? figureField)(ctx, step, field),
    verdict === "outside" && !pair ? outsideSay(ctx, step, field) : null, verdict === "outside" && field.wrong ? h("p", { class: "wrong" }, field.wrong) : null,
    refused.map(({ entry, why }) => h("p", { class: "alert", role: "alert" }, stateLine("refused", say("office_refused", { value: valueText(entry, field), why: why.say })))),
    await boxOffer(ctx, step, field));
}
