// Which screen stands under which hash. The module is fetched when its screen is first opened.

const ROUTES = [
  ["open", "open_unit"],
  ["open/:code", "open_unit"],
  ["sign-in", "sign_in"],
  ["sign-out", "sign_out"],
  ["phone", "phone_status"],
  ["settings", "settings"],
  ["unit/:unit", "unit"],
  ["unit/:unit/is-it", "is_it"],
  ["unit/:unit/stage/:stage", "stage"],
  ["unit/:unit/step/:step", "step"],
  ["unit/:unit/read/:step/:field", "read"],
  ["unit/:unit/read/:step/:field/:from", "read"],
  ["unit/:unit/unread/:step/:field", "unread"],
  ["unit/:unit/history/:step", "history"],
  ["unit/:unit/note/:step", "note"],
  ["unit/:unit/note/:step/:field", "note"],
  ["unit/:unit/frame", "frame"],
  ["unit/:unit/frame/:sheet", "frame"],
  ["unit/:unit/readings/:sheet", "readings"],
  ["unit/:unit/cannot/:sheet/:move", "cannot"],
  ["unit/:unit/why/:sheet", "why"],
  ["unit/:unit/sheet/:sheet", "sheet"],
  ["unit/:unit/hold/:step", "hold"],
  ["unit/:unit/ask/:step", "ask"],
  ["unit/:unit/sign", "sign"],
];

// The named parts of `words` when they have the shape of `pattern`, else null.
function fit(pattern, words) {
  const wanted = pattern.split("/");
  if (wanted.length !== words.length) return null;
  const at = {};
  for (const [i, part] of wanted.entries()) {
    if (part.startsWith(":")) at[part.slice(1)] = words[i];
    else if (part !== words[i]) return null;
  }
  return at;
}

/** `#unit/7/step/stop` → `{name: "step", at: {unit: "7", step: "stop"}}`; null for a hash that leads nowhere. */
export function find(hash) {
  const words = hash.replace(/^#/, "").split("/").map(decodeURIComponent);
  for (const [pattern, name] of ROUTES) {
    const at = fit(pattern, words);
    if (at) return { name, at };
  }
  return null;
}

/** `/u/7K3MD9QX2P`, any case → its code, else null. */
export function deepLink(path) {
  return /^\/u\/([^/]+)\/?$/i.exec(path)?.[1] ?? null;
}
