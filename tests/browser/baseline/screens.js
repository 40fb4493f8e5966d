// The five screens, with the markup of the app's own.

import { h } from 'preact';

const clock = (at) => new Date(at).toISOString().slice(11, 16);
const minutes = (from, to) => Math.max(0, Math.round((to - from) / 60_000));
const quiet = (words, onClick, more) => h('button', { class: 'quiet-button', type: 'button', onClick, ...more }, words);
const big = (words, onClick) => h('div', { class: 'acts' }, h('button', { class: 'big-button', type: 'button', onClick }, h('span', { class: 'big-button-label' }, words)));
const screen = (kind, body, foot) => h('main', { class: `screen ${kind}` }, body, foot);
const rows = (list) => h('ul', { class: 'rows' }, list);

// The steel rule: two hours in ticks, stretches, a scriber line.
function Rule({ from, to, now }) {
  const at = (instant) => 10 + (370 * (instant - from)) / (to - from);
  const ticks = Array.from({ length: 40 }, (_, tick) => {
    const x = 10 + (370 * tick) / 40;
    return h('line', { x1: x, x2: x, y1: 60, y2: tick % 5 ? 50 : 40 });
  });
  const labels = Array.from({ length: 8 }, (_, hour) => h('text', { x: 10 + (370 * hour) / 8, y: 30 }, clock(from + ((to - from) * hour) / 8)));
  return h('div', { class: 'rule' }, h('svg', { viewBox: '0 0 390 70', role: 'img' }, h('rect', { x: 10, y: 20, width: 370, height: 40 }), h('g', null, ticks), h('g', null, labels), h('line', { x1: at(now), x2: at(now), y1: 10, y2: 66 })));
}

export function Door({ state, send, go }) {
  const arrive = (room) => send({ kind: 'arrive', id: room }).then(() => go('/bench'));
  const row = (room) => h('li', { class: 'row' }, h('button', { class: 'row-act', type: 'button', onClick: () => arrive(room) }, h('span', { class: 'row-name' }, room), h('span', { class: 'row-detail' }, 'nobody known to be in')));
  const body = h('div', { class: 'screen-body' }, h('h1', null, 'At the door'), h('p', null, 'Scan the code by the door you are at. You will be asked a few things, one by one.'), h('h2', null, 'Or pick the room'), rows(state.rooms.map(row)), h('a', { class: 'plain-link', href: '/cautions' }, 'What this app cannot do'), h('p', { class: 'soft' }, 'Canal Yard is a demo shop: its people and its log are invented.'));
  return screen('', body, big('Scan the door code'));
}

export function Bench({ state, send, go, now }) {
  const { room, from, outBy } = state.session ?? { room: 'Fitting', from: now, outBy: now + 7_200_000 };
  const machine = ({ id, detail, since }) => h('li', { class: 'row with-act' }, h('div', null, h('p', { class: 'row-name' }, id), h('p', { class: 'row-detail' }, since ? `running since ${clock(since)}` : detail)), since ? quiet('Stop', () => send({ kind: 'stop', id }), { 'aria-label': `Stop: ${id}` }) : quiet('Start', () => send({ kind: 'start', id }), { 'aria-label': `Start: ${id}` }));
  const times = h('section', { class: 'times' }, h('button', { class: 'big-figure is-act', type: 'button' }, h('span', { class: 'figure-label' }, `Sweep from ${clock(outBy - 600_000)}, in`), h('span', { class: 'figure-value' }, minutes(now, outBy - 600_000)), h('span', { class: 'figure-unit' }, 'min')), h('button', { class: 'clock-line is-act', type: 'button' }, h('span', { class: 'clock-label' }, 'Out by'), h('span', { class: 'clock-value' }, clock(outBy))));
  const further = h('div', { class: 'further' }, h('section', { class: 'buddies' }, h('p', null, 'Nobody is your buddy yet. Some machines here ask for one.'), quiet('Ask for a buddy')), h('section', null, h('h2', null, 'How did you find it?'), h('div', { class: 'pair' }, quiet('Found clean'), quiet('Found a mess'))), h('section', { class: 'machines' }, h('h2', null, 'Machines'), rows(state.machines.map(machine)), h('p', { class: 'soft' }, 'Ears and hands: what is left today before an action value for noise or vibration.')), quiet('Tag a machine out'), h('section', null, h('h2', null, 'Look it up'), h('div', { class: 'choices' }, quiet('What metal is this?'), quiet('May I open this tin?'), quiet('Welding shades'))), h('section', { class: 'pocket-line' }, h('p', { class: 'soft' }, 'The screen stays lit. Sound is on.'), quiet('Bells in a pocket')));
  return screen('is-ruled', [h(Rule, { from, to: outBy, now }), h('div', { class: 'screen-body' }, h('div', { class: 'first-look' }, h('h1', { class: 'unseen' }, `Bench, ${room}`), times), further)], big('Start sweeping', () => go('/sweep')));
}

export function Sweep({ state, send, now }) {
  const { from, outBy } = state.session ?? { from: now, outBy: now + 7_200_000 };
  const chore = ({ id, text, min, done }) => h('li', { class: 'chore' }, h('button', { class: 'chore-row', type: 'button', role: 'checkbox', 'aria-checked': String(Boolean(done)), onClick: () => send({ kind: 'tick', id }) }, h('svg', { viewBox: '0 0 24 24' }, h('rect', { x: 2, y: 2, width: 20, height: 20 }), done && h('path', { d: 'M5 12 L10 18 L20 5' })), h('span', { class: 'chore-text' }, text), h('span', { class: 'chore-detail' }, `Fitting, from ${clock(now)}`), h('span', { class: 'chore-minutes' }, `${min} min`)));
  return screen('is-ruled sweep-screen', [h(Rule, { from, to: outBy, now }), h('div', { class: 'screen-body' }, h('div', { class: 'first-look' }, h('h1', null, 'Sweeping'), h('button', { class: 'big-figure is-act', type: 'button' }, h('span', { class: 'figure-label' }, 'Done by'), h('span', { class: 'figure-value' }, clock(now + 600_000)))), h('div', { class: 'further' }, h('p', null, 'This is what waits at the end, in the best order.'), h('ul', { class: 'chores' }, state.chores.map(chore))))], big('I have left it clean'));
}

export function Room({ state, now }) {
  const person = (name) => h('li', { class: 'row' }, h('p', { class: 'row-name' }, name), h('p', { class: 'row-detail' }, `in since ${clock(now)}`), h('p', { class: 'row-detail' }, 'last heard of just now'));
  const round = ({ text, due }) => h('li', { class: 'row with-act' }, h('div', null, h('p', { class: 'row-name' }, text), h('p', { class: 'row-detail' }, due), h('p', { class: 'row-detail' }, 'Last done 9 days ago'), h('p', { class: 'row-detail' }, 'weekly; common practice, no source')), quiet('Done'));
  return screen('', h('div', { class: 'screen-body' }, h('div', { class: 'headline' }, h('h1', null, 'Muster')), h('p', { class: 'muster-count' }, '1 person not known to have left'), h('p', null, 'Call each name outside. This is what this phone knows.'), state.rooms.map((room) => h('section', { class: 'muster' }, h('h3', null, room), rows(state.people.map(person)))), quiet('Clear the room'), quiet('Scan to be a buddy'), h('section', { class: 'rounds' }, h('h2', null, 'Rounds'), rows(state.rounds.map(round)))));
}

export function Book({ state }) {
  const way = ([name, hint]) => h('a', { class: 'page-way', href: '/book' }, h('strong', null, name), h('span', { class: 'soft' }, hint));
  const line = ({ at, what }) => h('li', { class: 'row book-line' }, h('span', { class: 'book-clock' }, clock(at)), h('span', { class: 'book-fact' }, what), h('span', { class: 'row-detail' }, 'on this phone'));
  return screen('is-plain', h('div', { class: 'screen-body' }, h('h1', null, 'Book'), h('nav', { class: 'pages' }, state.pages.map(way)), h('section', { class: 'sync' }, h('p', { class: 'soft' }, 'Hub reached just now.'), quiet('Send now')), h('section', null, h('h2', null, "This phone's log"), h('ol', { class: 'rows' }, state.log.map(line))), h('section', { class: 'phone' }, h('h2', null, 'This phone'), h('p', null, 'Signs for Noor at Canal Yard.'), quiet('Show my card'))));
}
