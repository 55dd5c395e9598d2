// What is odd about steps, in words: for the plumb line, the stage's rows and the sign-off.
import { answerOf } from "./answers.js";
import { fieldOf, list, standing, stepState } from "./look.js";
import { longName } from "./frame_look.js";
import { readingText } from "./dim.js";
import { farOff } from "./read_check.js";
import { say } from "./words.js";

/** The words for a field or a judged quantity of a step: its own, or those of a sheet that the step answers. */
export function whatSay(ctx, step, what) {
  if (fieldOf(step, what)) return fieldOf(step, what).say;
  const sheet = (step.answers ?? []).map((a) => ctx.sheet(a.sheet)).find((one) => one?.judged?.some((item) => item.what === what));
  return longName(ctx, sheet ?? { name: null, judged: [] }, what);
}

/** A rivet row that was chosen beside the one answered: it is taken, and looked at: [words]. */
export function otherRow(ctx, step) {
  const chosen = fieldOf(step, "row") && standing(ctx, step.id, "row").at(-1)?.value.chosen;
  const rows = chosen ? (step.answers ?? []).map((a) => answerOf(ctx, a.sheet)?.answer.row).filter(Boolean) : [];
  return rows.length && !rows.includes(chosen) ? [say("other_row", { row: chosen, told: rows[0] })] : [];
}

/** What stands out in steps: [{is, what: [words], step}] for outside, too close to call, two accounts and
 *  figures far from the plan that were kept as typed. */
export function problems(ctx, steps) {
  return steps.flatMap((step) => {
    const st = stepState(ctx, step.id);
    const named = (is, what) => (is === "outside" && st.is === "passed" ? say("by_concession", { say: whatSay(ctx, step, what) }) : whatSay(ctx, step, what));
    const row = (is, whats) => (whats.length ? [{ is, what: whats.map((what) => named(is, what)), step }] : []);
    const other = otherRow(ctx, step);
    return [...row("outside", st.outside), ...(other.length ? [{ is: "outside", what: other, step }] : []), ...row("too close to call", st.unsettled), ...row("two stand", st.pairs), ...far(ctx, step, st.outside)];
  });
}

function far(ctx, step, named) {
  const found = step.fields.filter((field) => !named.includes(field.id)).flatMap((field) => farOff(ctx, step, field).map((entry) => `${field.say} ${readingText(entry)}`));
  return found.length ? [{ is: "far", what: found, step }] : [];
}

/** Hold points that were only stated: [step]. */
export const onlyStated = (ctx) => ctx.packet.steps.filter((step) => stepState(ctx, step.id).hold === "stated");

/** What is outside, too close or doubled in the signed steps, in words. */
export const names = (ctx) => problems(ctx, ctx.packet.steps.filter((step) => step.signed !== false)).map(({ what }) => list(what));
