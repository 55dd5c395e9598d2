// Hold points, reviews, concessions. Twin of fieldapp/record/holds.py and reviews.py.
import { isCovered } from "./fold_entries.js";

// It covers all that stands on the step; its second is not someone who made any of that and released it herself.
function isGood({ value, person }, here) {
  const covers = new Set(value.covers);
  if (here.some((entry) => !covers.has(entry.id))) return false;
  return value.second !== person || here.every((entry) => entry.person !== person);
}

/** The step's good releases: Map id → "stated" or "confirmed". */
export function goodReleases(unit, step) {
  const here = unit.onStep(step);
  const borneOut = new Set(unit.ofKind("confirm").map((entry) => `${entry.value.of} ${entry.person}`));
  const found = new Map();
  for (const release of unit.ofKind("release")) {
    if (release.step !== step || !isGood(release, here)) continue;
    const { second } = release.value;
    found.set(release.id, second === release.person || borneOut.has(`${release.id} ${second}`) ? "confirmed" : "stated");
  }
  return found;
}

/** What the hold point's good releases make of it; null: it is shut. */
export function standingOf(releases) {
  const words = [...releases.values()];
  return words.includes("confirmed") ? "confirmed" : words.length ? "stated" : null;
}

// Standing reviews of this word whose entry is here; nobody reviews her own.
const reviews = (unit, word) => unit.ofKind("review").filter((review) => {
  const of = unit.counted.get(review.value.of);
  return review.value.is === word && of !== undefined && of.person !== review.person;
});

const sameIds = (one, other) => one.size === other.size && [...one].every((id) => other.has(id));

// Of what a sign-off covers that which lies on the step, releases aside.
const coveredHere = (unit, covers, step) => new Set(covers.filter((id) => {
  const entry = unit.counted.get(id);
  return entry !== undefined && entry.step === step && isCovered(entry) && entry.kind !== "release";
}));

/** Whether a concession holds: what stands on the step is what the `ask` or sign-off it names covers. */
export function concessionHolds(unit, step) {
  if (!step.concession) return false;
  const here = new Set(unit.onStep(step.id).map((entry) => entry.id));
  return reviews(unit, "concession").some((review) => {
    if (review.step !== step.id) return false;
    const { kind, step: on, value } = unit.counted.get(review.value.of);
    if (kind === "ask") return on === step.id && sameIds(new Set(value.covers), here);
    return kind === "signoff" && sameIds(coveredHere(unit, value.covers, step.id), here);
  });
}

/** {id, is} of the sign-off's return, else of the acceptance that counts (`acceptable`), else null; of several the greatest id. */
export function verdictOn(unit, signoff, acceptable) {
  for (const is of acceptable ? ["returned", "accepted"] : ["returned"]) {
    const [last] = reviews(unit, is).filter((review) => review.value.of === signoff).slice(-1);
    if (last) return { id: last.id, is };
  }
  return null;
}
