// Who works on this phone. Signing in needs signal; what another person kept stays locked under that person's id.
import { forget } from "./carried.js";
import { read, range, write } from "./db.js";
import { tell } from "./events.js";
import { setValue, value } from "./facts.js";
import { wake } from "./outbox.js";
import { alone, sendNow, SHELL } from "./sync.js";
import { call } from "./wire.js";

const label = () => /iPhone|iPad|Android|Windows|Mac|Linux/.exec(navigator.userAgent)?.[0] ?? "phone";

// Asked at the first sign-in, a touch; never waited for: some browsers do not answer.
function askToKeep() {
  navigator.storage?.persist?.().then((kept) => setValue("persisted", kept)).catch(() => setValue("persisted", false));
}

const NO_SIGNAL = "Signing in needs signal. What was kept here stays locked.";
const SAYS = {
  "sign in": "Name or password is not right.",
  "no signal": NO_SIGNAL,
  "not ours": "This network wants something of you first. Signing in needs signal.",
};

/** Signs in: {ok: true}, or {ok: false, say}. It waits for a call under way, which is the person before's. */
export function signIn(name, password) {
  return alone(async () => {
    const { id } = await value("device");
    askToKeep();
    const answer = await call("POST", "/api/session", { name, password, device: { id, label: label() } });
    if (answer.kind !== "ok") {
      return { ok: false, say: SAYS[answer.kind] ?? answer.data?.detail ?? "The office does not answer now. Try again." };
    }
    const { person } = answer.data;
    await write(["sessions", "settings"], (store) => Promise.all([
      store("sessions").put({ ...person, since: Date.now(), ended: false }),
      store("settings").put(person.id, "current"),
      store("settings").put(false, "leaving"),
    ]));
    await wake(person.id, SHELL, true);
    tell({ kind: "session" });
    return { ok: true };
  }, true).then((done) => { if (done.ok) sendNow(true); return done; });
}

/** How many entries of `person` the server does not have yet, refused ones too. */
export const unsent = (person) => read(["outbox"], async (store) =>
  (await store("outbox").getAll(range(person))).filter((row) => row.is !== "put right").length);

/** Signs out; what is unsent stays here, locked, and goes when that person signs in again. With nothing unsent all goes. */
export function signOut(person) {
  return alone(async () => {
    await write(["settings"], (store) => Promise.all([
      store("settings").delete("current"), store("settings").put(true, "leaving")]));
    await forget(person);
    tell({ kind: "session" });
  }, true).then(() => sendNow(true));
}
