// The phone: what is in the box, why it has not gone, and whether this phone may be relied on.
import { h } from "../dom.js";
import { ready, warnings } from "../health.js";
import { refusals } from "../refused.js";
import { clock } from "../row_a.js";
import { shape } from "../shape_svg.js";
import { sendNow, SHELL, state } from "../sync.js";
import { changeOver, newer } from "../worker.js";
import { say } from "../words_phone.js";

function people(counts, person) {
  return counts.map(({ id, name, waiting, sending, refused }) => h("div", { class: "box" },
    h("p", { class: "strong" }, id === person?.id ? say("you", { who: name }) : say("signed_out", { who: name })),
    waiting || refused
      ? [h("p", { class: "state" }, shape(sending ? "sending" : waiting ? "on this phone" : "refused"), h("span", null, [waiting && say("box_line", { waiting }), refused && say("box_refused", { refused })].filter(Boolean).join(", ")))]
      : h("p", { class: "state" }, shape("sent"), h("span", null, say("box_none")))));
}

const fact = (word, ...texts) => [h("dt", null, say(word)), h("dd", null, texts.filter(Boolean).map((text) => h("div", null, text)))];

export async function render(ctx) {
  const [counts, now, is, told, refused] = await Promise.all([
    ctx.store.counts(), Promise.resolve(state()), ready(), warnings(), ctx.person ? refusals(ctx) : []]);
  const pending = counts.some(({ waiting }) => waiting);
  const how = say(`s.${now.is}`);
  const send = async () => {
    await sendNow(true);
    return ctx.again();
  };
  return {
    title: say("phone_title"),
    main: [
      told.map((text) => h("p", { class: "warning", role: "note" }, text)),
      people(counts, ctx.person),
      how ? h("p", null, how) : null, pending && now.is === "sending" ? h("p", null, say("keep_open")) : null,
      refused.length ? [h("h2", null, say("refused_title")), refused] : null,
      newer() ? [h("p", { class: "strong" }, say("newer_say")), h("button", { type: "button", id: "change-over", onclick: changeOver }, say("change_over"))] : null,
      h("dl", { class: "facts" },
        fact("last_signal", now.contact ? clock(now.contact) : say("never")),
        now.until > Date.now() ? fact("next_try", clock(now.until)) : null),
      h("h2", null, say("ready")),
      ctx.person ? h("p", null, say("ready_is", { whole: is.whole, n: is.units })) : null,
      h("p", null, say(is.pages ? "shell_kept" : "shell_not", { version: SHELL })),
      h("p", null, say({ true: "kept_yes", false: "kept_no" }[is.persisted] ?? "kept_unknown")),
      h("p", { class: "note" }, say("private")),
      ctx.person ? h("button", { type: "button", id: "sign-out", onclick: () => ctx.go("#sign-out") }, say("out_do", { who: ctx.person.name })) : null,
    ],
    left: ctx.person ? { say: say("units"), go: "#open" } : { say: say("back"), go: "#sign-in" },
    right: ctx.person ? { say: say("settings"), go: "#settings" } : null,
    action: now.is === "sign in" || now.is === "other person" || !ctx.person ? { say: say("in_do"), go: "#sign-in" } : { say: say("send_now"), do: send },
  };
}
