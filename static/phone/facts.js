// Single facts on this phone: its own, a person's settings, what is being typed. Who is signed in decides whose.
import { read, write } from "./db.js";
import { uuid7 } from "./entry.js";
import { tell } from "./events.js";

/** Id of the person signed in, inside a transaction over `settings`; "" for nobody. */
export const me = (store) => store("settings").get("current").then((id) => id ?? "");

/** Opens the store and gives this phone its id, once; a store that will not open throws StoreFault. */
export async function open() {
  if (await value("device")) return;  // a write waits for the disk; a start need not
  await write(["settings"], async (store) => {
    if (!(await store("settings").get("device"))) await store("settings").put({ id: uuid7(), count: 0 }, "device");
  });
}

/** A fact of this phone (`device`, `clock`, `contact`, `persisted` …); undefined when it has none. */
export const value = (name) => read(["settings"], (store) => store("settings").get(name));
export const setValue = (name, what) => write(["settings"], (store) => store("settings").put(what, name));

/** A read that notices a dead connection before a figure depends on it. */
export const probe = () => value("device");

/** The session on this phone, {id, name, roles, crew, since, ended}, or null. */
export const session = () => read(["settings", "sessions"], async (store) =>
  (await store("sessions").get(await me(store))) ?? null);

/** A setting of this person; with a second argument keeps it. */
export async function setting(name, what) {
  if (what !== undefined) {
    await write(["settings"], async (store) => store("settings").put(what, `own/${await me(store)}/${name}`));
    tell({ kind: "settings" });
    return what;
  }
  return read(["settings"], async (store) => store("settings").get(`own/${await me(store)}/${name}`));
}

// What a phone starts with; `level` is the length of the person's own level in nm.
const DEFAULTS = { show: "mm", theme: "sun", strip: "right", pad: "own", level: null, tools: null, can_read: null };

/** All settings of this person. */
export const settings = () => read(["settings"], async (store) => {
  const before = `own/${await me(store)}/`;
  const own = IDBKeyRange.bound(before, `${before}\uffff`);
  const [keys, values] = await Promise.all([store("settings").getAllKeys(own), store("settings").getAll(own)]);
  return { ...DEFAULTS, ...Object.fromEntries(keys.map((key, i) => [key.slice(before.length), values[i]])) };
});

// Where the store fails, the text is still in this window's own memory, also after a reload.
const spare = (key) => `fieldapp-draft/${key}`;

/** What is being typed under `key`, per person; with a second argument keeps it, null forgets it. */
export async function draft(key, what) {
  if (what === undefined) {
    const row = await read(["settings", "drafts"], async (store) => store("drafts").get([await me(store), key]));
    return row?.what ?? JSON.parse(sessionStorage.getItem(spare(key))) ?? null;
  }
  try {
    await write(["settings", "drafts"], async (store) => {
      const person = await me(store);
      await (what === null ? store("drafts").delete([person, key]) : store("drafts").put({ person, key, what }));
    });
    sessionStorage.removeItem(spare(key));
  } catch (fault) {
    sessionStorage.setItem(spare(key), JSON.stringify(what));
    throw fault;
  }
  return what;
}
