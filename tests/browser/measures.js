// What a screen looks like, as numbers: run in the page by test_screens.py.
() => {
  const main = document.getElementById("main");
  const top = document.querySelector(".title-block").getBoundingClientRect().top;
  const visible = (node) => { const box = node.getBoundingClientRect(); const how = getComputedStyle(node); return box.width > 1 && box.height > 1 && how.visibility !== "hidden" && !node.closest(".hidden"); };
  const name = (node) => (node.getAttribute("aria-label") || node.innerText || node.id || node.tagName).replace(/\s+/g, " ").trim().slice(0, 60);
  // whether a word of the node stands on two lines
  const broken = (node) => { const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT); while (walker.nextNode()) { for (const word of walker.currentNode.data.matchAll(/\S+/g)) { const range = document.createRange(); range.setStart(walker.currentNode, word.index); range.setEnd(walker.currentNode, word.index + word[0].length); const rects = [...range.getClientRects()]; if (rects.some((r) => Math.abs(r.top - rects[0].top) > 2)) return true; } } return false; };
  const controls = [...document.querySelectorAll("button, a[href], summary, input, textarea, select")].filter(visible).filter((node) => !node.matches(".entry-input")).map((node) => {
    const box = node.getBoundingClientRect();
    return { name: name(node), x: box.left, y: box.top + (main.contains(node) ? main.scrollTop : 0), w: box.width, h: box.height, pad: Boolean(node.closest(".pad")), row: node.matches(".row, summary"), foot: Boolean(node.closest(".title-block")),
      list: node.closest(".pad, .keys, .choices, .row-b")?.className ?? null, clipped: node.scrollWidth > node.clientWidth + 1, broken: Boolean(node.closest(".row-b")) && broken(node) };
  });
  const texts = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const parse = (text) => text.match(/[\d.]+/g).map(Number);
  const behind = (node) => { for (let at = node; at; at = at.parentElement) { const c = parse(getComputedStyle(at).backgroundColor); if (c.length < 4 || c[3] > 0) return c.slice(0, 3); } return [255, 255, 255]; };
  while (walker.nextNode()) {
    const node = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || !node || node.closest("noscript, script, title, desc, .hidden") || !visible(node)) continue;
    const how = getComputedStyle(node);
    const svg = node.closest("svg");
    const drawn = svg?.getBoundingClientRect();
    const scale = svg ? Math.min(drawn.width / svg.viewBox.baseVal.width, drawn.height / svg.viewBox.baseVal.height) : 1;
    texts.push({ text: walker.currentNode.data.trim().slice(0, 80), size: parseFloat(how.fontSize) * scale, ink: parse(svg ? how.fill : how.color), ground: behind(node), svg: Boolean(svg), figure: node.matches(".figure > span:not(.unit):not(.way):not(.hidden):not(.written)") && !node.closest(".empty") && !node.closest(".fraction") });
  }
  const action = document.querySelectorAll("#key-action");
  const lines = action[0] ? Math.round(([...action[0].childNodes].reduce((h, n) => { const r = document.createRange(); r.selectNodeContents(n); return Math.max(h, r.getBoundingClientRect().height); }, 0)) / parseFloat(getComputedStyle(action[0]).lineHeight)) : 0;
  const cautions = [...document.querySelectorAll(".caution")];
  const firstField = document.querySelector(".field-place, .dim, .asked");
  return {
    screen: document.body.dataset.screen, title: document.querySelector("h1")?.innerText ?? "", top, controls, texts, height: innerHeight,
    action: { count: action.length, label: action[0]?.innerText.trim() ?? "", lines, box: action[0] ? [action[0].getBoundingClientRect().right, action[0].getBoundingClientRect().bottom] : null },
    wide: main.scrollWidth > main.clientWidth || document.documentElement.scrollWidth > innerWidth,
    cautions: cautions.map((node) => ({ bottom: node.getBoundingClientRect().bottom + main.scrollTop, note: node.getAttribute("role"), folded: Boolean(node.closest("details")) })),
    cautionsFirst: cautions.every((node) => !firstField || node.compareDocumentPosition(firstField) & Node.DOCUMENT_POSITION_FOLLOWING),
  };
}
