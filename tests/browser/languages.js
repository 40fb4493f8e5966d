// Phones that speak another language, and how the English words by which tests work are said there.
//
// The catalogues of one build have the same messages in the same order, so a message is found by its English and said
// from the other: whole, or with what stands in it. Words that several messages share become a choice between them.
// What the rulebook says comes from the demo shop's own translations.

import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { DIST } from './hub.js';

const DEMO = readFileSync(new URL('../../hub/demo/shop.toml', import.meta.url), 'utf8');
const MARK = '\u0001';

// A message's texts: one, or one for each form of a number.
function texts(line) {
  return line.startsWith(MARK) ? line.slice(2).split(MARK).map((variant) => variant.slice(1)) : [line];
}

const messages = (catalogue) => catalogue.split('\n').slice(1).map(texts);

function catalogueOf(tag) {
  if (tag === 'pseudo') return readFileSync(process.env.SWEEPBELL_PSEUDO, 'utf8');
  const file = readdirSync(join(DIST, 'assets')).find((name) => new RegExp(`^${tag}-[0-9a-f]+\\.txt$`).test(name));
  return readFileSync(join(DIST, 'assets', file), 'utf8');
}

// The demo rulebook's texts: English, and in a language.
function rulebookIn(tag) {
  const pairs = new Map();
  for (const [, , english, rest] of DEMO.matchAll(/^(\w+)\.en = "(.*)".*\n((?:\1\.\w+ = ".*"\n)*)/gm)) {
    const other = new RegExp(`^\\w+\\.${tag} = "(.*)"`, 'm').exec(rest);
    if (other) pairs.set(english, other[1]);
  }
  return pairs;
}

// Messages of nothing but places and points match whatever is said; but for a name behind an act.
const WITHOUT_WORDS = /^(?!\{\d\}: \{\d\}$)(?:\{\d\}|[^a-z])*$/;

const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

// A language by its tag, for `openPhone` and `walk`.
export function speaking(tag) {
  const [english, other, rulebook] = [messages(catalogueOf('en')), messages(catalogueOf(tag)), rulebookIn(tag)];

  // Everything that English words may be here, as sources of regular expressions.
  function said(words) {
    const found = new Set();
    if (rulebook.has(words)) found.add(escaped(rulebook.get(words)));
    english.forEach((variants, number) => {
      // Whole, and without the name before it: "Forge. 1 of 3" is looked for as "1 of 3".
      for (const variant of variants.flatMap((whole) => [whole, whole.replace(/^\{\d\}[.:,]? /, '')])) {
        const pattern = new RegExp(`^${escaped(variant).replace(/\\\{\d\\\}/g, '(.+)')}$`);
        const match = pattern.exec(words);
        if (!match || (match[1] && WITHOUT_WORDS.test(variant))) continue;
        const places = [...variant.matchAll(/\{(\d)\}/g)].map(([, place]) => place);
        const inside = Object.fromEntries(places.map((place, index) => [place, `(?:${said(match[index + 1])})`]));
        for (const text of other[number]) found.add(escaped(text).replace(/\\\{(\d)\\\}/g, (_, place) => inside[place] ?? '.+'));
      }
    });
    return found.size > 0 ? [...found].join('|') : escaped(words);
  }

  // A piece of a message, with anything in the places around it: what tests look for by its beginning or middle.
  function piece(words, begins) {
    const found = new Set();
    for (const [plain, there] of rulebook) if (begins ? plain.startsWith(words) : plain.includes(words)) found.add(escaped(there));
    english.forEach((variants, number) => {
      const bare = variants.map((variant) => variant.replace(/\{\d\}/g, '').trim());
      const holds = variants.some((variant, index) => (begins ? variant.startsWith(words) : variant.includes(words)) || (bare[index] && bare[index] === words));
      if (holds) for (const text of other[number]) found.add(escaped(text).replace(/(?:\\\{\d\\\})+/g, '.*?'));
    });
    return found.size > 0 ? [...found].join('|') : escaped(words);
  }

  // A text is said as a whole, or somewhere in what is shown; a regular expression by its beginnings and middles.
  function says(words, whole = true) {
    if (typeof words === 'string') return new RegExp(whole ? `^(?:${said(words)})$` : said(words));
    const parts = words.source.split('|').map((part) => {
      const [, start, middle, end] = /^(\^?)(.*?)(\$?)$/.exec(part);
      const plain = middle.replace(/\\(.)/g, '$1');
      return start && end ? `^(?:${said(plain)})$` : `${start}(?:${piece(plain, start !== '')})`;
    });
    return new RegExp(parts.join('|'));
  }

  // Which of these texts are English that is said otherwise here.
  function leftOver(shown) {
    const own = new Set(other.flat());
    const plain = new Set(english.flat().filter((text) => /[a-z]{3}/.test(text) && !own.has(text)));
    // What a rulebook says in English alone stays so.
    const untranslated = (text) => DEMO.includes(`"${text}"`) && !rulebook.has(text);
    return [...shown].filter((text) => (plain.has(text) && !untranslated(text)) || (rulebook.has(text) && rulebook.get(text) !== text));
  }

  const pseudo = tag === 'pseudo';
  return {
    tag,
    says,
    leftOver,
    // A worker would answer from what it keeps, which no bundle has of the pseudo language.
    options: pseudo ? { serviceWorkers: 'block' } : { locale: tag },
    serve: async (context) => {
      if (pseudo) await context.route(/\/assets\/en-[0-9a-f]+\.txt$/, (route) => route.fulfill({ body: catalogueOf(tag), contentType: 'text/plain; charset=utf-8' }));
    },
  };
}
