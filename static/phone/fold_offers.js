// What may be signed, released, asked for or confirmed now: for buttons. Twin of fieldapp/record/offers.py.
import { goodReleases } from "./fold_holds.js";
import { covered, isThrough } from "./fold_signoffs.js";
import { isSigned } from "./fold_standing.js";

const ids = (entries) => entries.map((entry) => entry.id);
const on = (unit, kind, step) => ids(unit.ofKind(kind).filter((entry) => entry.step === step));

// The packet's people who release; not the one who enters it where she made one of the step's standing entries.
function secondsOf(unit, packet, step, person) {
  const own = unit.onStep(step).some((entry) => entry.person === person);
  return ids((packet.people ?? []).filter((each) => each.release && !(own && each.id === person)));
}

function stepOf({ index, plan }, step, states, person) {
  const now = states.get(step.id);
  const needs = (step.needs ?? []).filter((need) => states.has(need) && !isThrough(states.get(need)));
  const ready = now.is === "shut" && (Boolean(step.concession) || !now.outside.length);
  return {
    covers: ids(index.onStep(step.id)), needs, release: ready && !needs.length,
    seconds: secondsOf(index, plan.packet, step.id, person), releases: on(index, "release", step.id),
    ask: Boolean(step.concession) && (now.is === "open" || now.is === "outside"), asks: on(index, "ask", step.id),
  };
}

// A pair never lets a sign-off be made: one of the crew can settle it, and no concession could let it pass.
function maySign(step, now, asked) {
  if (isThrough(now)) return true;
  if (!step.concession) return false;
  return now.is === "outside" || (now.is === "open" && asked && !step.hold && !now.pairs.length);
}

function signoffOf(unit, state) {
  const asked = new Set(unit.index.ofKind("ask").map((entry) => entry.step));
  const steps = ids(unit.steps.filter((step, at) => isSigned(step) && !maySign(step, state.steps[at], asked.has(step.id))));
  const split = Object.keys(state.sheets).filter((name) => state.sheets[name].split.length).sort();
  return { offered: unit.steps.length > 0 && !steps.length && !split.length, steps, split,
    covers: covered(unit.index, unit.plan.packet), replaces: ids(unit.index.ofKind("signoff")) };
}

/** See fieldapp/record/offers.py for the shape. */
export function offers(unit, state, person) {
  const states = new Map(state.steps.map((now) => [now.id, now]));
  const steps = Object.fromEntries(unit.steps.map((step) => [step.id, stepOf(unit, step, states, person)]));
  const confirms = unit.steps.filter((step) => step.hold).flatMap((step) =>
    [...goodReleases(unit.index, step.id)].filter(([, word]) => word === "stated").map(([release]) =>
      ({ release, step: step.id, second: unit.index.counted.get(release).value.second })));
  return { signoff: signoffOf(unit, state), steps, confirms };
}
