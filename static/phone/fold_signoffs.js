// Sign-offs, and what asks for the supervisor. Twin of fieldapp/record/signoffs.py and waiting.py.
import { isCovered } from "./fold_entries.js";
import { verdictOn } from "./fold_holds.js";
import { differs, isSigned } from "./fold_standing.js";

const aside = (packet) => new Set((packet.steps ?? []).filter((step) => !isSigned(step)).map((step) => step.id));

/** Whether the step's own state lets a sign-off stand on it. */
export const isThrough = (now) => now.is === "done" || now.is === "passed";

/** What a sign-off made now covers: ids, rising; not what lies on steps with `"signed": false`. */
export function covered(unit, packet) {
  const out = aside(packet);
  return unit.standing.filter((entry) => isCovered(entry) && !out.has(entry.step)).map((entry) => entry.id);
}

function isOf({ index, plan }, packets, entry, now, missing) {
  if (missing) return "waiting";
  const covers = new Set(entry.value.covers);
  return now.some((id) => !covers.has(id)) || differs(plan, entry.packet, packets) ? "stale" : "complete";
}

/** The sign-offs that stand, by id: [{id, is, missing, review}]. Of two that stand neither is accepted. */
export function signoffsOf(unit, packets, steps) {
  const now = covered(unit.index, unit.plan.packet);
  const standing = unit.index.ofKind("signoff");
  const out = aside(unit.plan.packet);
  const fit = standing.length === 1 && steps.every((step) => out.has(step.id) || isThrough(step));
  return standing.map((entry) => {
    const missing = [...new Set(entry.value.covers)].filter((id) => !unit.index.counted.has(id)).length;
    const is = isOf(unit, packets, entry, now, missing);
    return { id: entry.id, is, missing, review: verdictOn(unit.index, entry.id, fit && is === "complete") };
  });
}

function ofStep(step, now, asked, signed) {
  const found = [];
  if (now.hold === "stated") found.push(`hold:${step.id}`);
  if (now.pairs.length) found.push(`pair:${step.id}`);
  const wants = asked || (signed && isSigned(step));
  if (step.concession && (now.is === "open" || now.is === "outside") && wants) found.push(`concession:${step.id}`);
  return found;
}

/** The state's list `waiting`, sorted. */
export function waitingOf(unit, steps, sheets, signoffs) {
  const asked = new Set(unit.index.ofKind("ask").map((entry) => entry.step));
  const found = new Set(unit.steps.flatMap((step, at) => ofStep(step, steps[at], asked.has(step.id), signoffs.length > 0)));
  for (const [name, sheet] of Object.entries(sheets)) if (sheet.split.length) found.add(`split:${name}`);
  if (signoffs.some((signoff) => signoff.is === "complete" && !signoff.review)) found.add("sign-off");
  if (signoffs.some((signoff) => signoff.is === "stale")) found.add("stale");
  if (unit.index.quarantined) found.add("quarantined");
  return [...found].sort();
}
