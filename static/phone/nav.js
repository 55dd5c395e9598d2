// Where the phone is: the hash, and the phone's own back, which does what the left key does.
import { deepLink } from "./routes.js";

let depth = 0;   // how far into this window's history the present screen stands

/** Opens the screen under `hash`; gives whether the hash is another one. */
export function move(hash) {
  const wanted = hash.startsWith("#") ? hash : `#${hash}`;
  if (wanted === location.hash) return false;
  history.pushState({ n: depth += 1 }, "", wanted);
  return true;
}

/** The same place in history under another hash (a code that was looked up, a screen that leads on by itself). */
export function instead(hash) {
  history.replaceState({ n: depth }, "", hash);
}

/** Takes up the address the page was opened by, and from then on calls `draw()`; `left()` gives the left key. */
export function start({ draw, left, press }) {
  const code = deepLink(location.pathname);
  instead(`/${code ? `#open/${encodeURIComponent(code)}` : location.hash || "#open"}`);
  addEventListener("popstate", (event) => {
    const n = event.state?.n ?? depth + 1;  // no state: a hash typed by hand, a new place
    const back = n < depth;
    const key = left();
    if (!event.state) history.replaceState({ n }, "", location.href);
    if (back && key && !key.off && key.do && !key.back) {
      history.forward();  // nothing was left: the key does its work on the screen that stands
      return void press(key);
    }
    const onward = n > depth && Boolean(event.state);
    depth = n;
    if (back && key && !key.off) instead(key.back ?? key.go);
    if (onward && location.hash === shown) return;
    draw();
  });
}

let shown = null;

/** Told by whoever draws, so that coming forward again onto the screen that stands draws nothing. */
export function arrived() {
  shown = location.hash;
}
