// Cautions stand before fields, whole, never folded, at the same place each time.
import { h } from "./dom.js";
import { triangle } from "./shapes.js";

/** One block a caution, each with the warning triangle. */
export const cautions = (texts) => (texts ?? []).map((text) => h("div", { class: "caution", role: "note" }, triangle(), h("p", null, text)));
