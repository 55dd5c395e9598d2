// One call to the server, and what kind of answer it was. Nothing but our own server's JSON counts as an answer.
const API = "1";
const PATIENCE_MS = 8000;

const seconds = (text) => (/^\d+$/.test(text ?? "") ? Number(text) * 1000
  : Math.max(0, Date.parse(text ?? "") - Date.now()) || 0);

// A captive page answers 200 with HTML, or redirects; ours names its API and speaks JSON.
const OURS = /^(application\/(problem\+)?json|image\/svg\+xml)/;
const ours = (answer) => answer.type === "basic" && !answer.redirected && answer.headers.has("Fieldapp-Api")
  && (answer.status === 204 || OURS.test(answer.headers.get("Content-Type") ?? ""));

const TRY_LATER = new Set([408, 409, 425, 429]);

function kindOf(status) {
  if (status < 300) return "ok";
  if (status === 401) return "sign in";
  if (status === 426) return "too old";
  return status >= 500 || TRY_LATER.has(status) ? "later" : "refused";
}

/**
 * {kind, status, data, shell, after_ms, sent, came}: `kind` is "ok", "sign in", "too old", "later" (try again), "refused"
 * (trying again the same way is no use), "no signal" or "not ours"; `data` the JSON, `shell` the server's shell version.
 */
export async function call(method, path, body, { bytes = false } = {}) {
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(), PATIENCE_MS);
  const sent = Date.now();
  try {
    const answer = await fetch(path, {
      method, signal: patience.signal, cache: "no-store", credentials: "same-origin", redirect: "manual",
      headers: { "Fieldapp-Api": API, ...(body === undefined ? {} : { "Content-Type": "application/json" }) },
      body: body === undefined ? undefined : JSON.stringify(body),
    });
    if (!ours(answer)) return { kind: "not ours", status: answer.status, data: null };
    const data = answer.status === 204 ? null : bytes && answer.ok ? await answer.arrayBuffer() : await answer.json();
    return { kind: kindOf(answer.status), status: answer.status, data, shell: answer.headers.get("Fieldapp-Shell"),
      after_ms: seconds(answer.headers.get("Retry-After")), sent, came: Date.now() };
  } catch (fault) {
    return { kind: fault instanceof SyntaxError ? "not ours" : "no signal", status: 0, data: null, late: fault.name === "AbortError" };
  } finally {
    clearTimeout(timer);
  }
}
