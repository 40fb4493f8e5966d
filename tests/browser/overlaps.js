// Whether words in front lie over other words: each line of text as it is drawn, against each line of another element.

const SLACK_PX = 3;
// The part of a line's box, at either side of the letters, that is theirs in name only.
const SPARE = 0.25;

// Everything that lies over something else, a line each.
export async function overlaps(page) {
  return page.evaluate(([slack, SPARE]) => {
    const front = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
    const seen = (element) => element.checkVisibility({ opacityProperty: true, visibilityProperty: true });
    const clip = (element) => {
      let box = { left: 0, top: 0, right: innerWidth, bottom: innerHeight };
      for (let holder = element; holder && holder !== document.body; holder = holder.parentElement) {
        const style = getComputedStyle(holder);
        if (style.overflow === 'visible' || style.display === 'contents' || holder instanceof SVGElement) continue;
        const edge = holder.getBoundingClientRect();
        box = { left: Math.max(box.left, edge.left), top: Math.max(box.top, edge.top), right: Math.min(box.right, edge.right), bottom: Math.min(box.bottom, edge.bottom) };
      }
      return box;
    };
    const lines = [];
    const words = document.createTreeWalker(front, NodeFilter.SHOW_TEXT);
    while (words.nextNode()) {
      const [text, element] = [words.currentNode.data.trim(), words.currentNode.parentElement];
      // What only names a drawing or a button is not drawn.
      if (!text || !seen(element) || element.closest('title, desc, .rule-why, option')) continue;
      const range = document.createRange();
      range.selectNodeContents(words.currentNode);
      const edge = clip(element);
      for (const box of range.getClientRects()) {
        // The letters themselves: a line's box reserves room above and below them, or beside them where they lie turned.
        const turned = /rotate/.test(element.getAttribute('transform') ?? '');
        const [across, along] = turned ? [box.width * SPARE, 0] : [0, box.height * SPARE];
        const drawn = { left: Math.max(box.left + across, edge.left), top: Math.max(box.top + along, edge.top), right: Math.min(box.right - across, edge.right), bottom: Math.min(box.bottom - along, edge.bottom) };
        if (drawn.right - drawn.left > 1 && drawn.bottom - drawn.top > 1) lines.push({ element, text, ...drawn });
      }
    }
    const found = [];
    lines.forEach((one, index) => {
      for (const other of lines.slice(index + 1)) {
        if (one.element === other.element) continue;
        const [wide, high] = [Math.min(one.right, other.right) - Math.max(one.left, other.left), Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top)];
        if (wide > slack && high > slack) found.push(`"${one.text.slice(0, 30)}" lies over "${other.text.slice(0, 30)}"`);
      }
    });
    return [...new Set(found)];
  }, [SLACK_PX, SPARE]);
}
