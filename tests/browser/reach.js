() => {
    const found = [], main = document.getElementById('main');
    if (Math.max(document.documentElement.scrollWidth - innerWidth, main.scrollWidth - main.clientWidth) > 1)
        found.push('wider than the window');
    for (const node of document.querySelectorAll('button, a[href], summary, input:not(.entry-input), textarea')) {
        const folded = node.closest('details:not([open])') && node.tagName !== 'SUMMARY';
        if (folded || node.getBoundingClientRect().width < 2) continue;
        node.scrollIntoView({block: 'nearest'});
        const box = node.getBoundingClientRect();
        const at = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height / 2, 30));
        if (!at || !(node.contains(at) || at.contains(node))) found.push(`${node.innerText || node.id} is covered`);
        if (node.scrollWidth > node.clientWidth + 1) found.push(`${node.innerText || node.id} is cut off`);
    }
    const keys = [...document.querySelectorAll('.row-b .key')], block = document.getElementById('title-block');
    const low = keys.filter((key) => key.getBoundingClientRect().height < 48);
    found.push(...low.map((key) => `${key.innerText}: under 48 px`));
    if (block.offsetHeight > 214) found.push(`the title block takes ${block.offsetHeight} px`);
    return found;
}
