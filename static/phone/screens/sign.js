// Saying what one stands for: counts, what is odd, the sentence, and the only second question of the phone.
import { sha256 } from "../entry.js";
import { h } from "../dom.js";
import { offered } from "../fold.js";
import { roundOf, tell } from "../answers.js";
import { byId, goOn, list, noPlan, personName, returned, stages, standingKind, stepOf, stepState, timeOf } from "../look.js";
import { stateLine } from "../shapes.js";
import { onlyStated, problems, whatSay } from "../steps.js";
import { say } from "../words.js";

const MOST_NAMED = 6;
let sure = null;  // the covers' hash that was asked about once

// What keeps the sign-off from being made, in state.md's words: [{words, go}].
function blocks(ctx, { steps, split }) {
  const unit = `#unit/${ctx.unit.id}`;
  return [...split.map((name) => ({ words: say("b.split", { say: name }), go: `${unit}/frame/${name}` })), ...steps.flatMap((id) => {
    const [step, st] = [stepOf(ctx, id), stepState(ctx, id)];
    const go = `${unit}/step/${id}`;
    if (st.pairs.length) return st.pairs.map((what) => ({ words: say("b.pair", { say: whatSay(ctx, step, what) }), go, step }));
    if (st.missing.length) return [{ words: say("b.missing", { say: `${step.say}: ${list(st.missing.map((what) => whatSay(ctx, step, what)))}` }), go, step }];
    if (st.is === "shut") return [{ words: say("b.shut", { say: step.say }), go: `${unit}/hold/${id}`, step }];
    if (st.is === "outside") return [{ words: say("b.outside", { say: step.say }), go, step }];
    return [{ words: say("b.not_known", { say: step.say }), go, step }];
  })];
}

// the main action's words: the step in the way, where its name fits
function first({ step }) {
  const words = step && say("sign_first", { say: step.say });
  return words && words.length <= 34 ? words : say("sign_first_long");
}

const link = ({ words, go }, state = null) => h("li", null, h("a", { class: "row", href: go }, state, h("span", { class: "name" }, words)));

// Outside, too close, stated, not read but asked for: each a row that opens it.
function odd(ctx) {
  const unit = `#unit/${ctx.unit.id}`;
  const signed = ctx.packet.steps.filter((step) => step.signed !== false);
  const unread = signed.filter((step) => standingKind(ctx, "ask", step.id).length && stepState(ctx, step.id).missing.length)
    .map((step) => ({ state: stateLine("not read"), words: list(stepState(ctx, step.id).missing.map((what) => whatSay(ctx, step, what))), go: `${unit}/step/${step.id}` }));
  return [...problems(ctx, signed).map(({ is, what, step }) => ({ state: stateLine(is), words: `${step.say}: ${what.join(", ")}`, go: `${unit}/step/${step.id}` })),
    ...onlyStated(ctx).map((step) => ({ state: stateLine("stated"), words: step.say, go: `${unit}/hold/${step.id}` })), ...unread];
}

// What stands now that the sign-off did not cover, by the names of its fields.
function staleSay(ctx, signoff, covers) {
  const had = new Set(signoff?.value.covers);
  const late = covers.filter((id) => !had.has(id)).map((id) => byId(ctx.entries).get(id)).filter((e) => e && stepOf(ctx, e.step));
  const what = [...new Set(late.map((e) => `${stepOf(ctx, e.step).say}${e.field ? `, ${whatSay(ctx, stepOf(ctx, e.step), e.field)}` : ""}`))];
  return what.length ? say("sign_again", { list: what.slice(0, MOST_NAMED).join("; ") }) : say("sign_stale");
}

function before(ctx, covers) {
  return ctx.state.signoffs.map((signoff) => {
    const entry = byId(ctx.entries).get(signoff.id);
    const review = signoff.review && byId(ctx.entries).get(signoff.review.id);
    const word = signoff.is === "waiting" ? { word: say("is.waiting", { n: signoff.missing }) } : {};
    return h("div", null, h("p", { class: "strong" }, stateLine(signoff.is, entry ? say("by_at", { who: personName(ctx, entry.person), time: timeOf(entry.at) }) : "", word)),
      review ? h("p", null, say(review.value.is === "returned" ? "returned" : "accepted", { why: review.value.because, who: personName(ctx, review.person) })) : null,
      signoff.is === "stale" ? h("p", null, staleSay(ctx, entry, covers)) : null);
  });
}

// A return that names no step: the reason stands above, and here is every stage to look in.
function where(ctx) {
  const signed = stages(ctx).filter((stage) => stage.steps.some((step) => step.signed !== false));
  return [h("h2", null, say("where_again")), h("ul", { class: "rows", id: "where" }, signed.map((stage) => link({ words: stage.say, go: `#unit/${ctx.unit.id}/stage/${stage.id}` })))];
}
const toWhere = () => { const list = document.getElementById("where"); list.previousElementSibling.scrollIntoView(); list.querySelector("a").focus({ preventScroll: true }); };

async function sign(ctx, covers, replaces, hash) {
  if (sure !== hash) { sure = hash; return ctx.again(); }
  const names = Object.keys(ctx.state.sheets);
  const told = names.flatMap((name) => tell(ctx, [name], null, { round: { [name]: roundOf(ctx, name) } }));
  if (!await ctx.keep([...told, ctx.make("signoff", { covers, sha256: hash }, { replaces })])) return null;
  sure = null;
  return ctx.again();
}

export async function render(ctx) {
  if (!ctx.packet) return noPlan(ctx);
  const { signoff } = offered(ctx.entries, ctx.packet, ctx.parts, ctx.state, ctx.person.id);
  const covers = [...signoff.covers].sort();
  const hash = await sha256(covers.join("\n"));
  const unit = `#unit/${ctx.unit.id}`;
  const rows = odd(ctx);
  const stops = blocks(ctx, signoff);
  const good = ctx.state.signoffs.length === 1 && ["complete", "waiting"].includes(ctx.state.signoffs[0].is) && ctx.state.signoffs[0].review?.is !== "returned";
  const back = good ? null : returned(ctx);
  const asked = sure === hash && !good && !stops.length;
  const holds = ctx.packet.steps.filter((step) => stepState(ctx, step.id).hold).length;
  const main = [before(ctx, covers), back ? h("p", { class: "strong" }, say("nothing_new")) : good ? null : h("p", null, say("sign_counts", { n: covers.length, hold: holds, outside: rows.length })),
    good || back || stops.length ? null : h("p", { class: "large" }, say("sign_say", { who: ctx.person.name, n: covers.length })), asked ? h("p", { class: "alert" }, say("sign_sure")) : null,
    stops.length && !good ? [h("h2", null, say("sign_blocked")), h("ul", { class: "rows" }, stops.map((stop) => link(stop)))] : null,
    rows.length ? [h("h2", null, say("look_these")), h("ul", { class: "rows" }, rows.map((row) => link(row, row.state)))] : h("p", null, say("nothing_odd")), back && !back.step && !stops.length ? where(ctx) : null];
  const action = back && !stops.length ? back.step ? goOn(ctx, back.step) : { say: say("choose_where"), do: toWhere } : good ? { say: say("unit_back"), go: unit } : stops.length ? { say: first(stops[0]), go: stops[0].go }
    : { say: say(asked ? "sign_yes" : "sign_n", { n: covers.length }), do: () => sign(ctx, covers, signoff.replaces, hash) };
  return { title: say(good ? "sign_is" : "sign_title"), overline: say("unit", { n: ctx.unit.number }), main,
    left: asked ? { say: say("sign_no"), do: () => { sure = null; return ctx.again(); }, back: unit } : { say: say("all_stages"), go: unit }, right: { say: say("phone"), go: "#phone" }, action };
}
