// Sign in: whose work this is. Needs signal; what others kept here stays locked.
import { h } from "../dom.js";
import { signIn } from "../session.js";
import { say } from "../words_phone.js";

export async function render(ctx) {
  const others = (await ctx.store.counts()).filter(({ id, waiting }) => waiting && id !== ctx.person?.id);
  const name = h("input", { id: "name", type: "text", autocomplete: "username", autocapitalize: "none", spellcheck: "false",
    enterkeyhint: "next", value: ctx.person?.name ?? "" });
  const password = h("input", { id: "password", type: "password", autocomplete: "current-password", enterkeyhint: "go" });
  const fault = h("p", { class: "fault", role: "alert", hidden: true });
  const show = h("button", { type: "button", id: "show-password", "aria-pressed": "false", onclick: () => {
    const open = password.type === "password";
    password.type = open ? "text" : "password";
    show.setAttribute("aria-pressed", String(open));
  } }, say("show_password"));

  function wrong(text) {
    fault.textContent = text;
    fault.hidden = false;
  }

  async function act() {
    fault.hidden = true;
    if (!name.value.trim() || !password.value) return wrong(say("in_missing"));
    const done = await signIn(name.value.trim(), password.value);
    if (!done.ok) return wrong(done.say);
    return location.hash === "#sign-in" ? ctx.instead("#open") : ctx.again();
  }

  return {
    title: say(ctx.person ? "in_again_title" : "in_title"), still: true,
    main: [
      h("p", null, ctx.person ? say("in_why", { who: ctx.person.name }) : say("in_once")),
      h("form", { class: "fields", onsubmit: (event) => event.preventDefault() },
        h("div", { class: "field" }, h("label", { for: "name" }, say("name")), name),
        h("div", { class: "field" }, h("label", { for: "password" }, say("password")), password), fault, show),
      others.map(({ name: who, waiting }) => h("p", { class: "note" }, say("locked", { who, n: waiting }))),
    ],
    left: ctx.person ? { say: say("back"), go: "#open" } : null,
    right: { say: say("phone"), go: "#phone" },
    action: { say: say("in_do"), do: act },
  };
}
