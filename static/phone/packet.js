// Packets and their parts: fetched once, checked against their names, never changed.
import { read, range, write } from "./db.js";
import { sha256 } from "./entry.js";
import { call } from "./wire.js";

const HASH = /^[0-9a-f]{64}$/;
const known = new Map();   // hash → document, of this window: they never change
const absent = new Set();  // what the server does not give this person

/** Every part that a document names: objects with `part`, wherever they stand. */
export function partsOf(document, found = new Set()) {
  if (document && typeof document === "object") {
    if (HASH.test(document.part)) found.add(document.part);
    for (const inner of Object.values(document)) partsOf(inner, found);
  }
  return found;
}

/** `document` with each shared text or drawing, an object of `part` alone, put in its place. */
export function placed(document, parts) {
  if (!document || typeof document !== "object") return document;
  if (Array.isArray(document)) return document.map((inner) => placed(inner, parts));
  const keys = Object.keys(document);
  if (keys.length === 1 && HASH.test(document.part)) return parts[document.part] ?? document;
  return Object.fromEntries(keys.map((key) => [key, placed(document[key], parts)]));
}

/** The document `hash` out of `place` ("packets" or "parts"), or undefined when it is not here. */
export async function carried(place, hash) {
  if (!known.has(hash)) {
    const document = await read([place], (store) => store(place).get(hash));
    if (document === undefined) return undefined;
    known.set(hash, document);
  }
  return known.get(hash);
}

/** A packet and its parts, {packet, parts}, or null when not all of it is here. */
export async function whole(hash) {
  const packet = hash ? await carried("packets", hash) : undefined;
  if (packet === undefined) return null;
  const wanted = [...partsOf(packet)];
  const lacking = wanted.filter((part) => !known.has(part));
  const found = await read(["parts"], (store) => Promise.all(lacking.map((part) => store("parts").get(part))));  // at once: a start waits for it
  for (const [i, document] of found.entries()) if (document !== undefined) known.set(lacking[i], document);
  return { packet, parts: Object.fromEntries(wanted.map((part) => [part, known.get(part)])) };
}

async function fetched(hash) {
  const answer = await call("GET", `/api/packets/${hash}`, undefined, { bytes: true });
  if (answer.kind !== "ok") return { answer };
  const is = await sha256(answer.data);
  if (is !== null && is !== hash) return { answer: { ...answer, kind: "later" } };  // cut or changed on the way
  const text = new TextDecoder().decode(answer.data);
  return { answer, document: text.startsWith("<") ? text : JSON.parse(text) };  // a drawing's text is its SVG
}

// One document and, before it, its parts (a packet that is here is whole): whether it came; throws what stopped it.
async function bring(place, hash) {
  if (absent.has(hash) || (await carried(place, hash)) !== undefined) return false;
  const { answer, document } = await fetched(hash);
  if (answer.kind === "refused") return Boolean(void absent.add(hash));
  if (answer.kind !== "ok") throw new Stopped(answer);
  for (const part of place === "packets" ? partsOf(document) : []) await bring("parts", part);
  await write([place], (store) => store(place).put(document, hash));
  return true;
}

class Stopped extends Error {
  constructor(answer) {
    super(answer.kind);
    this.answer = answer;
  }
}

/** Brings what the units of `person` still lack: {count: packets that came, failed: null or the answer that stopped it}. */
export async function bringAll(person) {
  const rows = await read(["units"], (store) => store("units").getAll(range(person)));
  let count = 0;
  try {
    for (const hash of new Set(rows.flatMap((row) => [row.packet, row.inUse, ...row.needs]))) {
      if (hash && await bring("packets", hash)) count += 1;
    }
    return { count, failed: null };
  } catch (fault) {
    if (!(fault instanceof Stopped)) throw fault;
    return { count, failed: fault.answer };
  }
}

/** What a newer plan changes, in words: figures as `say(nm)` has them, old → new, facts that differ, then steps. */
export function whatChanged(old, next, say) {
  const was = new Map((old.planned ?? []).map((figure) => [figure.id, figure]));
  const said = (figure) => figure.text ?? say(figure.nm);
  const figures = (next.planned ?? []).filter(({ id, nm, text }) => was.has(id) && (was.get(id).nm !== nm || was.get(id).text !== text))
    .map((figure) => `${figure.say} ${said(was.get(figure.id))} → ${said(figure)}`);
  const facts = (next.facts ?? []).filter((line) => !(old.facts ?? []).includes(line));
  const before = new Map(old.steps.map((step) => [step.id, JSON.stringify(step)]));
  const after = new Set(next.steps.map((step) => step.id));
  const named = (word, steps) => (steps.length ? [`${word}: ${steps.map((step) => step.say).join(", ")}`] : []);
  const parts = new Map(old.sheets?.map((sheet) => [sheet.name, sheet.part]));
  const found = [...figures, ...facts,
    ...named("New", next.steps.filter((step) => !before.has(step.id))),
    ...named("Changed", next.steps.filter((step) => before.has(step.id) && before.get(step.id) !== JSON.stringify(step))),
    ...named("No longer", old.steps.filter((step) => !after.has(step.id)))];
  if (found.length) return found;
  const ruled = next.sheets?.some((sheet) => parts.get(sheet.name) !== sheet.part) || JSON.stringify(old.editions) !== JSON.stringify(next.editions);
  return [ruled ? "Rules behind the answers" : "Who may look second"];
}
