// Entries up, entries down, by one call; then the packets that the phone still lacks. One window sends at a time.
import { apply, name } from "./carried.js";
import { range, read, write } from "./db.js";
import { onChange, tell } from "./events.js";
import { session, setValue, value } from "./facts.js";
import { NEXT, sendingNow, settle, take, wake } from "./outbox.js";
import { bringAll } from "./packet.js";
import { become, done, heard, now, SHELL, stop } from "./sender.js";
import { call } from "./wire.js";

export { SHELL, state } from "./sender.js";

const cursors = (person) => read(["units"], async (store) =>
  Object.fromEntries((await store("units").getAll(range(person))).map((row) => [row.id, row.cursor])));

// A call refused as a whole: halved until the entry is alone that it was refused for, and that one stays behind.
async function narrow(person, sent, answer) {
  if (answer.kind !== "refused" || !sent.length || ![400, 413, 422].includes(answer.status)) return false;
  now.most = Math.ceil(sent.length / 2);
  if (sent.length > 1) return true;
  const { type = "", detail = "", title = "" } = answer.data;
  const why = { code: type.split(":").pop(), say: detail || title, retry: answer.data.retry ?? "never" };
  await settle(person, sent, [{ index: 0, id: sent[0].id, answer: "refused", why }], SHELL);
  return true;
}

async function exchange(person, readable) {
  const sent = await take(person, now.most);
  if (!sent.length && !readable) return { stopped: { kind: "sign in" } };
  const { id: device } = await value("device");
  for (const entry of sent) sendingNow.add(entry.id);
  if (sent.length) become("sending");
  try {
    const answer = await call("POST", "/api/sync", { device, entries: sent, units: readable ? await cursors(person) : {} });
    if (answer.kind !== "ok") return (await narrow(person, sent, answer)) ? { more: true } : { stopped: answer };
    await heard(answer);
    const known = answer.data.results.filter((result) => result.answer in NEXT);
    await settle(person, sent, known, SHELL);
    now.most = 500;
    if (sent.length && !known.length) return { stopped: { kind: "later" } };
    const down = readable ? await apply(person, answer.data) : { more: false, arrived: 0, news: 0 };
    if (down.arrived || down.news) tell({ kind: "entries", from: "office" });
    if (known.some((result) => result.why?.code === "other_person")) return { stopped: { kind: "other person" } };
    return { more: down.more || sent.length > 0, news: down.news > 0 };
  } finally {
    sendingNow.clear();
  }
}

async function listUnits(person) {
  for (let after = ""; after !== null;) {
    const answer = await call("GET", `/api/units?limit=500${after && `&after=${encodeURIComponent(after)}`}`);
    if (answer.kind !== "ok") return answer;
    await name(person, answer.data.units);
    after = answer.data.next;
  }
  now.named = person;
  tell({ kind: "units" });
  return null;
}

// Signed out without a signal: the cookie goes with the first one, before anybody else's work.
async function signOutLate() {
  if (!(await value("leaving"))) return;
  const answer = await call("DELETE", "/api/session");
  if (answer.kind === "ok" || answer.kind === "sign in") await setValue("leaving", false);
}

async function round() {
  const person = await session();
  if (!person) return signOutLate();
  const who = await call("GET", "/api/session");
  const readable = who.kind === "ok";
  if (readable && who.data.person.id !== person.id) return stop({ kind: "other person" });
  if (!readable && who.kind !== "sign in") return stop(who);
  await heard(who);
  await mark(person.id, !readable);
  await wake(person.id, SHELL);
  let failed = readable && now.named !== person.id ? await listUnits(person.id) : null;
  for (let step = { more: !failed }; step.more;) {
    step = await exchange(person.id, readable);
    failed = step.stopped ?? (step.news ? await listUnits(person.id) : null);
    if (failed) break;
  }
  const brought = readable && !failed ? await bringAll(person.id) : { failed: { kind: "sign in" } };
  if (brought.count) tell({ kind: "units" });
  failed ??= brought.failed;
  if (failed) return stop(failed);
  return done();
}

const mark = (person, ended) => write(["sessions"], async (store) => {
  const row = await store("sessions").get(person);
  if (row && row.ended !== ended) await store("sessions").put({ ...row, ended });
});

/** Runs `work` while no other window of this phone sends; undefined at once when one does and `wait` is false. */
export function alone(work, wait = false) {
  if (!navigator.locks) return work();
  return navigator.locks.request("fieldapp-send", { ifAvailable: !wait }, (lock) => (lock ? work() : undefined));
}

let running = null;
let again = false;

/** Sends what is unsent and fetches what is new; `asked` by the person it does not wait out a pause. */
export function sendNow(asked = false) {
  if (running) { again = true; return running; }
  if (Date.now() < now.notBefore || (!asked && Date.now() < now.until)) return Promise.resolve();
  running = alone(async () => {
    do { again = false; await round(); } while (again && now.is === "idle");
  }).catch((fault) => { console.error(fault); stop({ kind: "later" }); })
    .finally(() => { running = null; });
  return running;
}

/** Sends on everything that may have brought a signal, and every 60 s while the page is seen. */
export async function start() {
  now.contact = (await value("contact")) ?? null;
  const seen = () => { if (document.visibilityState === "visible") sendNow(); };
  onChange((what) => { if (what.kind === "entries" && what.from === "here") sendNow(); });
  addEventListener("online", () => sendNow(true));
  addEventListener("pageshow", seen);
  document.addEventListener("visibilitychange", seen);
  setInterval(seen, 60000);
  setInterval(() => { if (now.until && Date.now() >= now.until) seen(); }, 1000);
  return sendNow(true);
}
