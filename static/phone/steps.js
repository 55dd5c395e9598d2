// What is odd about steps, in words: for the plumb line, the stage's rows and the sign-off.
import { fieldOf, list, stepState } from "./look.js";
import { readingText } from "./dim.js";
import { farOff } from "./read_check.js";
import { known, say } from "./words.js";

/** The words for a field or a judged quantity of a step: its own, or those of a sheet that the step answers. */
export function whatSay(ctx, step, what) {
  if (fieldOf(step, what)) return fieldOf(step, what).say;
  if (known(`long.${what}`)) return say(`long.${what}`);
  const found = (step.answers ?? []).flatMap((a) => ctx.sheet(a.sheet)?.judged ?? []).find((judged) => judged.what === what);
  return found?.say ?? what.replace(/[._]/g, " ");
}

/** What stands out in steps: [{is, what: [words], step}] for outside, too close to call, two accounts and
 *  figures far from the plan that were kept as typed. */
export function problems(ctx, steps) {
  return steps.flatMap((step) => {
    const st = stepState(ctx, step.id);
    const row = (is, whats) => (whats.length ? [{ is, what: whats.map((what) => whatSay(ctx, step, what)), step }] : []);
    return [...row("outside", st.outside), ...row("too close to call", st.unsettled), ...row("two stand", st.pairs), ...far(ctx, step, st.outside)];
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
