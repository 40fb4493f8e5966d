// The sizes and places that a workshop asks for, measured on whatever is in front: for gloves, wet hands and scratched
// glasses. Runs in the page; nothing here looks at what a screen means.
//
// - A target is 64 px high and wide or more, and stands 12 px or more from the next (WCAG 2.2, 2.5.8 asks for 24 px). The
//   target is what can be pressed, not what is drawn in it.
// - The main act is 96 px high and as wide as where it stands; upright it begins in the lower third, level it ends at the
//   outer edge.
// - Text is 18 px or more, numbers that matter 48 px or more and in figures of one width.
// - Lying level, where the phone is read from where one works, the numbers of Bench are all there at once, also at the hours
//   when they are at their widest.
// - Nothing scrolls sideways (WCAG 2.2, 1.4.10), no word is cut off, and what scrolls shows enough of itself to be read.

// The places at the foot are five at 64 px: under this width, 12 px between do not fit and they share what is left.
const FIVE_PLACES_PX = 5 * 64 + 4 * 12;

// Everything that is wrong, a line each. With text of twice the size, nothing is asked of where the main act stands.
export async function misfits(page, { largeText = false } = {}) {
  return page.evaluate(measure, { fivePlacesPx: FIVE_PLACES_PX, largeText });
}

function measure({ fivePlacesPx, largeText }) {
  const [TARGET_PX, MAIN_PX, BETWEEN_PX, TEXT_PX, NUMBER_PX, READABLE_PX, MARGIN_PX, LEVEL_PX, SLACK_PX] = [64, 96, 12, 18, 48, 120, 16, 272, 0.5];
  const [width, height] = [document.documentElement.clientWidth, window.innerHeight];
  const front = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
  const found = [];
  const px = (length) => `${Math.round(length * 10) / 10} px`;
  const told = (element) => {
    const name = (element.getAttribute('aria-label') || element.textContent || element.getAttribute('name') || '').trim();
    return `${element.tagName.toLowerCase()}.${[...element.classList].join('.')} "${name.slice(0, 40)}"`;
  };
  const seen = (element) => element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && element.getClientRects().length > 0;
  const all = (selector) => [...front.querySelectorAll(selector)].filter(seen);

  // What of an element can be seen and pressed: its box within all that clips it.
  const clipped = (element) => {
    let { left, top, right, bottom } = element.getBoundingClientRect();
    for (let box = element.parentElement; box && box !== document.body; box = box.parentElement) {
      if (getComputedStyle(box).overflow === 'visible' || getComputedStyle(box).display === 'contents') continue;
      const edge = box.getBoundingClientRect();
      [left, top] = [Math.max(left, edge.left), Math.max(top, edge.top)];
      [right, bottom] = [Math.min(right, edge.right), Math.min(bottom, edge.bottom)];
    }
    return { left, top, right, bottom };
  };
  const scroller = (element) => element.parentElement?.closest('.screen-body, .sheet-body, .first-look, .further, .acts, .bell-body, .screen') ?? front;

  // Targets: their size, and what lies between them.
  const targets = all('a[href], button, input, select, textarea, summary, [role=checkbox]');
  for (const target of targets) {
    const box = target.getBoundingClientRect();
    const least = target.matches('.big-button, .bell-main') ? MAIN_PX : TARGET_PX;
    if (box.height < least - SLACK_PX) found.push(`${told(target)} is ${px(box.height)} high, not ${least}`);
    if (box.width < TARGET_PX - SLACK_PX) found.push(`${told(target)} is ${px(box.width)} wide, not ${TARGET_PX}`);
    if (target.scrollWidth > target.clientWidth + 1 && !target.matches('input, select, .rule-why')) found.push(`${told(target)} cuts its words off: ${target.scrollWidth} in ${target.clientWidth} px`);
  }
  targets.forEach((one, index) => {
    for (const other of targets.slice(index + 1)) {
      if (one.contains(other) || other.contains(one)) continue;
      if (one.matches('.place') && other.matches('.place') && width < fivePlacesPx) continue;
      const box = scroller(one) === scroller(other) ? (element) => element.getBoundingClientRect() : clipped;
      const [a, b] = [box(one), box(other)];
      if ([a, b].some((box) => box.right <= box.left || box.bottom <= box.top)) continue;
      const between = Math.max(a.left - b.right, b.left - a.right, a.top - b.bottom, b.top - a.bottom);
      if (between < BETWEEN_PX - SLACK_PX) found.push(`${px(between)} between ${told(one)} and ${told(other)}, not ${BETWEEN_PX}`);
    }
  });

  // The main act: one at most, where the thumb is.
  const mains = all('.big-button, .bell-main');
  if (mains.length > 1) found.push(`${mains.length} main acts: ${mains.map(told).join(', ')}`);
  for (const main of mains) {
    const [box, where] = [main.getBoundingClientRect(), getComputedStyle(main.parentElement)];
    const room = main.parentElement.clientWidth - parseFloat(where.paddingLeft) - parseFloat(where.paddingRight);
    if (box.width < room - SLACK_PX) found.push(`${told(main)} is ${px(box.width)} wide where ${px(room)} are`);
    // Where a window is too little to hold a screen it scrolls as a whole, and nothing has a place of its own.
    if (largeText || document.documentElement.scrollHeight > height + 1) continue;
    if (height >= width && box.top < (height * 2) / 3) found.push(`${told(main)} begins at ${px(box.top)} of ${height}: above the lower third`);
    const outside = document.documentElement.dir === 'rtl' ? box.left > MARGIN_PX + SLACK_PX : box.right < width - MARGIN_PX - SLACK_PX;
    if (height < width && outside) found.push(`${told(main)} ends at ${px(box.right)} of ${width}: not at the outer edge`);
    if (box.bottom > height + SLACK_PX) found.push(`${told(main)} ends at ${px(box.bottom)} of ${height}: below the edge`);
  }

  // Text and numbers.
  const words = document.createTreeWalker(front, NodeFilter.SHOW_TEXT);
  while (words.nextNode()) {
    const element = words.currentNode.parentElement;
    if (!words.currentNode.data.trim() || !seen(element)) continue;
    const box = element.getBoundingClientRect();
    if (box.width <= 1 || box.height <= 1) continue;
    const drawn = element instanceof SVGGraphicsElement ? element.getScreenCTM() : { c: 0, d: 1 };
    const size = parseFloat(getComputedStyle(element).fontSize) * Math.hypot(drawn.c, drawn.d);
    if (size < TEXT_PX - SLACK_PX) found.push(`${told(element)} is written in ${px(size)}`);
  }
  for (const number of all('.figure-value, .clock-value, .countdown')) {
    const style = getComputedStyle(number);
    if (parseFloat(style.fontSize) < NUMBER_PX - SLACK_PX) found.push(`${told(number)} is written in ${style.fontSize}, not ${NUMBER_PX}`);
    if (!style.fontVariantNumeric.includes('tabular-nums')) found.push(`${told(number)} has figures of many widths`);
  }

  const levelOnTheBench = width > height && height >= LEVEL_PX && !largeText;
  const numbers = levelOnTheBench ? all('.times .figure-value, .times .clock-value') : [];
  const shownNow = numbers.map((number) => number.firstChild.data);
  for (const number of numbers) number.firstChild.data = number.matches('.clock-value') ? '20:00' : '888';
  for (const number of numbers) {
    const [whole, shown] = [number.getBoundingClientRect(), clipped(number)];
    if (shown.bottom < whole.bottom - SLACK_PX) found.push(`${told(number)} is cut off: ${px(Math.max(0, shown.bottom - whole.top))} of ${px(whole.height)}`);
  }
  numbers.forEach((number, place) => (number.firstChild.data = shownNow[place]));

  // What scrolls: never sideways, and never through a slit.
  for (const element of new Set([document.documentElement, front, ...all('.screen, .screen-body, .sheet-body, .first-look, .acts, .bell-body')])) {
    if (getComputedStyle(element).display === 'contents') continue;
    if (element.scrollWidth > element.clientWidth + 1) {
      const edge = element.getBoundingClientRect().left + element.clientWidth + 1;
      const over = [...element.querySelectorAll('*')].filter((part) => part.getBoundingClientRect().right > edge && !part.matches('.unseen')).at(-1);
      found.push(`${told(element)} scrolls sideways: ${element.scrollWidth} in ${element.clientWidth} px, for ${over ? told(over) : 'no part of its own'}`);
    }
    const least = Math.min(READABLE_PX, element.scrollHeight);
    if (element.clientHeight < least - 1) found.push(`${told(element)} shows ${element.clientHeight} of ${element.scrollHeight} px`);
  }
  return found;
}
