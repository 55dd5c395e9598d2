// What row A says: saved, sending, sent, NOT SAVED; and how the signal is. No signal is a normal state, not a warning.
import { shape } from "./shape_svg.js";
import { counts } from "./store.js";
import { state } from "./sync.js";
import { newer } from "./worker.js";
import { say } from "./words_phone.js";

const DAY = 86400000;

/** `10:42`, with the day when it is not today: `24 Nov 10:42`. */
export function clock(when, now = new Date()) {
  const date = new Date(when);
  const time = date.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  if (now - date < DAY && now.getDate() === date.getDate()) return time;
  return `${date.toLocaleDateString("en-GB", { day: "numeric", month: "short" })} ${time}`;
}

/** {shape, text, alarm} of the saved cell; `short` where the cell beside it has words. */
export async function savedCell(ctx, savedAt, alarm, short) {
  if (alarm) return { text: say("not_saved"), alarm: true };
  if (!ctx?.person) return { text: "" };
  const own = (await counts()).find(({ id }) => id === ctx.person.id);
  if (!own) return { text: "" };
  if (savedAt) return { shape: shape(own.waiting ? "on this phone" : "sent"), text: say("saved", { time: clock(savedAt) }) };
  if (own.refused) return { shape: shape("refused"), text: say("refused_n", { n: own.refused }) };
  if (own.sending) return { shape: shape("sending"), text: say("sending", { n: own.sending }) };
  if (own.waiting) return { shape: shape("on this phone"), text: say("unsent", { n: own.waiting }) };
  return { shape: shape("sent"), text: say(short ? "all_sent_short" : "all_sent") };
}

/** The middle cell's words, the first the most needed: how the signal is, where that needs saying, then `own`, the
 *  screen's. */
export function contextText(ctx, own = null) {
  const { is, contact } = state();
  const then = (words, more = null) => [words, own ?? more].filter(Boolean);
  if (is === "sign in" || is === "other person" || ctx?.person?.ended) return then(say("sign_in_again"));
  if (is === "not ours") return then(say("not_ours"));
  if (is === "no signal" || is === "later") return contact ? then(say("no_signal"), say("since", { time: clock(contact) })) : then(say("no_signal_yet"));
  return own ? [own] : newer() ? [say("newer")] : [];
}
