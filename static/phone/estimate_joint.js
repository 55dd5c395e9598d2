// The chance that several quantities lie inside together. Twin of fieldapp/trade/estimate/linear_joint.py.
import {phi} from "./chance.js";

const DENSITY = 1 / Math.sqrt(2 * Math.PI);
const TINY = 1e-12;

const rootOf = variance => variance > TINY ? Math.sqrt(variance) : Math.sqrt(TINY);

// Chance, and the limits in standard deviations from the mean.
function inside(mean, u, tolerance) {
  const low = (-tolerance - mean) / u;
  const high = (tolerance - mean) / u;
  return {chance: Math.max(0, phi(high) - phi(low)), low, high};
}

// Mean and covariance of those after i, given that i lies inside its limits.
function givenInside(m, c, i, {chance, low, high}, u) {
  const atLow = DENSITY * Math.exp(-0.5 * low * low);
  const atHigh = DENSITY * Math.exp(-0.5 * high * high);
  const shift = (atLow - atHigh) / chance;
  const lost = shift * shift - (low * atLow - high * atHigh) / chance;
  for (let j = i + 1; j < m.length; j += 1) {
    const row = c[j];
    const pull = row[i] / u;
    m[j] += pull * shift;
    for (let k = i + 1; k < m.length; k += 1) row[k] -= pull * (c[k][i] / u) * lost;
  }
}

/** {together, each}: the chance that all |quantity| <= tolerance, and each one's own; covariance as rows. */
export function joint(mean, covariance, tolerance) {
  const each = mean.map((one, i) => inside(one, rootOf(covariance[i][i]), tolerance[i]).chance);
  const m = [...mean];
  const c = covariance.map(row => [...row]);
  let together = 1;
  for (let i = 0; i < m.length; i += 1) {
    const u = rootOf(c[i][i]);
    const found = inside(m[i], u, tolerance[i]);
    together *= found.chance;
    if (found.chance < TINY) return {together: 0, each};
    givenInside(m, c, i, found, u);
  }
  return {together, each};
}
