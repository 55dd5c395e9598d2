// Keys of the office: ↑ ↓ move through the lines, Enter opens (a link does that itself), F6 goes to the title block and back.
const lines = () => [...document.querySelectorAll('.lines a.do')];

const step = by => {
  const all = lines();
  if (!all.length) return false;
  const at = all.indexOf(document.activeElement);
  all[Math.max(0, Math.min(all.length - 1, at < 0 ? 0 : at + by))].focus();
  return true;
};

const typing = target => target.closest('input, textarea, select');

let left = null; // where F6 left from, to go back to
const enter = () => left?.isConnected ? left : lines()[0] ?? document.querySelector('main :is(a, button, textarea, summary, input:not([type=hidden]))');

document.addEventListener('keydown', event => {
  if (event.key === 'F6') {
    const here = document.activeElement;
    const inBlock = here.closest('.title-block');
    if (!inBlock) left = here === document.body ? null : here;
    (inBlock ? enter() : document.querySelector('.title-block a'))?.focus();
    event.preventDefault();
  } else if (!typing(event.target) && (event.key === 'ArrowDown' || event.key === 'ArrowUp')) {
    if (lines().length && step(event.key === 'ArrowDown' ? 1 : -1)) event.preventDefault();
  }
});

document.querySelector('[role=alert][tabindex]')?.focus();
// Paper is complete: what is folded on the screen is opened for it, also where the style sheet cannot do so.
const folded = () => [...document.querySelectorAll('details:not([open])')];
let opened = [];
window.addEventListener('beforeprint', () => { opened = folded(); for (const one of opened) one.open = true; });
window.addEventListener('afterprint', () => { for (const one of opened) one.open = false; });
for (const button of document.querySelectorAll('[data-print]')) button.addEventListener('click', () => window.print());
