// Sign out: never a silent loss. What is unsent is sent first, or stays here, locked.
import { h } from "../dom.js";
import { signOut, unsent } from "../session.js";
import { sendNow } from "../sync.js";
import { say } from "../words_phone.js";

export async function render(ctx) {
  const n = await unsent(ctx.person.id);
  const leave = async () => {
    await signOut(ctx.person.id);
    return ctx.instead("#sign-in");
  };
  const sendFirst = async () => {
    await sendNow(true);
    return (await unsent(ctx.person.id)) ? ctx.again() : leave();
  };
  return {
    title: say("out_title"),
    main: n ? [h("p", { class: "strong" }, say("out_some", { n })), h("p", null, say("out_stay")),
      h("button", { type: "button", id: "leave", onclick: leave }, say("leave_locked"))] : h("p", null, say("out_none")),
    left: { say: say("back"), go: "#phone" },
    action: n ? { say: say("send_first"), do: sendFirst } : { say: say("out_do", { who: ctx.person.name }), do: leave },
  };
}
