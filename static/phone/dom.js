// Building the page. Text enters as text, drawings through DOMParser; nothing is ever parsed as HTML.

const XML = "image/svg+xml";

/**
 * One element. `props`: a function is a listener (`onclick`), `true` an empty attribute, `false`, null and
 * undefined none, `class` may be a list, `data` an object, `value` and `checked` are set as properties,
 * the rest are attributes. Children: nodes, text, numbers, lists of those; null and false are left out.
 */
export function h(tag, props, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(props ?? {})) set(node, name, value);
  node.append(...flat(children));
  return node;
}

function set(node, name, value) {
  if (value === false || value === null || value === undefined) return;
  if (typeof value === "function") node.addEventListener(name.replace(/^on/, ""), value);
  else if (name === "class") node.className = [value].flat().filter(Boolean).join(" ");
  else if (name === "data") Object.assign(node.dataset, value);
  else if (name === "value" || name === "checked") node[name] = value;
  else node.setAttribute(name, value === true ? "" : String(value));
}

function flat(children) {
  return children.flat(Infinity).filter((c) => c !== null && c !== undefined && c !== false)
    .map((c) => (c instanceof Node ? c : String(c)));
}

/** A drawing from its SVG text, as a node of this page; throws when it is not well-formed SVG. */
export function svg(text) {
  const root = new DOMParser().parseFromString(text, XML).documentElement;
  if (root.nodeName !== "svg") throw new Error(`not a drawing: ${text.slice(0, 60)}`);
  for (const bad of root.querySelectorAll("script, foreignObject")) bad.remove();
  return document.importNode(root, true);
}

/** Puts `children` in the place of what `node` holds. */
export function fill(node, ...children) {
  node.replaceChildren(...flat(children));
  return node;
}
