// The induction walk, as the rulebook has it and as a member walks it. Read without the app.

import { readFileSync } from 'node:fs';

export const SHOP = 'hub/demo/shop.toml';
// What every member attests is a point of the walk too.
const STATEMENTS = ['Hair, cords', 'My eye protection', 'I have had no alcohol'];

// The stops: id, and of those that ask, the English answers and the number of the right one.
export function stops() {
  const file = readFileSync(new URL(`../../${SHOP}`, import.meta.url), 'utf8');
  const blocks = file.split('[[stop]]').slice(1).map((block) => block.split('\n[[')[0]);
  return blocks.map((block) => {
    const answers = block.match(/answers = \[([\s\S]*?)\n\]/)?.[1].match(/en = "[^"]*"/g) ?? [];
    return {
      id: block.match(/id = "([^"]*)"/)[1],
      answers: answers.map((answer) => answer.slice(6, -1)),
      right: Number(block.match(/right = (\d)/)?.[1] ?? 0),
    };
  });
}

// Opens each stop's code and answers rightly, then reads each statement. `at` is called at each stop before anything is answered.
export async function walkAll(phone, at = async () => {}) {
  for (const [number, stop] of stops().entries()) {
    await phone.open(`/s/${stop.id}`);
    await at(stop, number);
    await phone.tap(stop.right ? stop.answers[stop.right - 1] : 'Seen and understood');
    await phone.hears('This one is behind you.');
  }
  for (const statement of STATEMENTS) {
    await phone.page.locator('button.row-act', { hasText: statement }).tap();
    await phone.tap('I have read it');
  }
  await phone.hears('You have walked it all. A steward inducts you now.');
}
