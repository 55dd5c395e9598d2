// A state as shape and word, and the shapes by themselves.
import { h } from "./dom.js";
import { shape } from "./shape_svg.js";
import { say } from "./words.js";

export { arrow, s, shape, through, triangle } from "./shape_svg.js";

/** Shape, then its word in bold, then `rest` in plain. */
export function stateLine(name, rest, { flipped = false, word = say(`is.${name}`) } = {}) {
  return h("span", { class: "state" }, shape(name, flipped), h("span", null, h("b", null, word), rest ? ` ${rest}` : null));
}
