// What an entry is when it is made (server.md). It is never changed afterwards; `count` is given when it is kept.

const hex = (bytes) => [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");

/** UUID version 7 (RFC 9562, 5.7) from milliseconds since 1970 and ten random bytes. */
export function uuid7(ms = Date.now(), random = crypto.getRandomValues(new Uint8Array(10))) {
  const bytes = new Uint8Array(16);
  new DataView(bytes.buffer).setBigUint64(0, BigInt(ms) << 16n);
  bytes.set(random, 6);
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const text = hex(bytes);
  return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join("-");
}

const two = (n) => String(n).padStart(2, "0");

/** RFC 3339 with milliseconds and the zone `east` minutes east of Greenwich: `2026-11-25T10:42:07.120+01:00`. */
export function stamp(date, east = -date.getTimezoneOffset()) {
  const local = new Date(date.getTime() + east * 60000).toISOString().slice(0, -1);
  const away = Math.abs(east);
  return `${local}${east < 0 ? "-" : "+"}${two(Math.floor(away / 60))}:${two(away % 60)}`;
}

/**
 * A new entry. `where`: {unit, step, field, round, replaces, packet, sheet}, all but unit may be left out;
 * `who`: {person, device, offset_ms}. `count` is 0 until store.keep gives the device's next.
 */
export function make(kind, value, where, who) {
  return {
    id: uuid7(), v: 1, unit: where.unit, step: where.step ?? null, field: where.field ?? null,
    round: where.round ?? null, kind, value, replaces: where.replaces ?? [], packet: where.packet ?? null,
    sheet: where.sheet ?? null, person: who.person, device: who.device, count: 0, at: stamp(new Date()),
    offset_ms: who.offset_ms ?? null,
  };
}

const text = new TextEncoder();

/** Bytes of a value as JSON, as the server counts them. */
export const bytesOf = (value) => text.encode(JSON.stringify(value)).length;

/** SHA-256 in lower-case hex of bytes or text; null where the page is not secure and there is none. */
export async function sha256(data) {
  if (!crypto.subtle) return null;
  const bytes = typeof data === "string" ? text.encode(data) : data;
  return hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
}
