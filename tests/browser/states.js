// Every screen of the app in every state that a member can meet, as one table: what is tested of all of them, and what
// shows all of them, walks through it.
//
// A story is what members do on their phones, and each of its rows is a state with the act that leads to it from the row
// above. A row that opens something closes it again, so that rows can be added and taken out. A new screen, sheet or
// state is a row here, and is then measured, read, photographed and worked without a mouse like all others.

import { expect } from '@playwright/test';
import { arrive, attestAll, bookPage, codeFor, inSheet, joined, lookAt, machine, scanAsk, startMachine, tickNext } from './acts.js';
import { openPhone, passUntil } from './phone.js';
import { clockAfter, instantOf } from './shop_time.js';

// A state behind an act, and the act that leaves it.
function behind(state, act, leave = 'Back') {
  return { state, come: (phone) => phone.tap(act), leave: (phone) => phone.tap(leave) };
}

// A place of the foot.
function at(place, state = place) {
  return { state, come: (phone) => phone.go(place) };
}

// A page of Book.
function page(state, name) {
  return {
    state,
    come: (phone) => bookPage(phone, name),
  };
}

async function typeCode(phone, code) {
  await phone.page.getByLabel(phone.says('Join code')).fill(code);
  await phone.tap('Join');
}

// Goes on to an instant that Bench names, and hears its bell.
async function bellOf(phone, words, heading) {
  await passUntil([phone], await instantOf(phone, await clockAfter(phone.page.locator('main'), phone.says(new RegExp(words)).source)));
  await phone.hears(heading);
}

// Any picture does for one of a machine.
const PICTURE = new URL('../../public/icons/sweepbell-192.png', import.meta.url).pathname;

// The later part of the app.
const LATER = /\/assets\/later_bg-/;

export const STORIES = [
  {
    name: 'joining, arriving and the cautions',
    phones: [{}],
    rows: [
      {
        state: 'joining',
        come: async (phone) => {
          await phone.open('/');
          await expect(phone.page.getByLabel(phone.says('Join code'))).toBeVisible();
        },
      },
      behind('joining: the camera', 'Scan it instead'),
      {
        state: 'joining: a wrong code',
        come: async (phone) => {
          await typeCode(phone, 'AAAA-AAAA');
          await expect(phone.page.getByRole('alert')).toBeVisible();
        },
      },
      {
        state: 'joining: a code for one member',
        come: async (phone) => {
          await typeCode(phone, phone.hub.steward('invite', 'make', 'noor', '--another').code);
          await phone.hears('Canal Yard. Are you Noor?');
        },
        leave: (phone) => phone.tap('Back'),
      },
      {
        state: 'joining: who are you',
        come: async (phone) => {
          await typeCode(phone, phone.hub.joinCode);
          await phone.hears('Who are you?');
        },
      },
      { state: 'Door', come: (phone) => phone.tap('Noor').then(() => phone.hears('At the door')) },
      behind('Door: the camera', 'Scan the door code'),
      at('Bench', 'Bench without a session'),
      at('Sweep', 'Sweep without a session'),
      at('Room', 'Room without a session'),
      at('Book', 'Book without a line'),
      {
        state: 'the cautions',
        come: async (phone) => {
          await phone.open('/cautions');
          await expect(phone.page.locator('main.screen .caution').first()).toBeVisible();
        },
      },
      {
        state: 'Door: a statement',
        come: async (phone) => {
          await phone.go('Door');
          await phone.tap(/^Forge/);
          await phone.hears('1 of 3');
        },
      },
      behind('Door: a statement declined', 'Not now', 'Got it'),
      { state: 'Door: out-by', come: (phone) => phone.tap(/^Forge/).then(() => attestAll(phone)) },
    ],
  },
  {
    name: 'not let in',
    phones: [{ who: 'Joris' }],
    rows: [{ state: 'Door: barred', come: (phone) => phone.tap(/^Forge/).then(() => phone.hears('Not yet')) }],
  },
  {
    name: 'working',
    phones: [{ who: 'Noor', room: 'Forge' }],
    rows: [
      { state: 'Bench', come: (phone) => startMachine(phone, 'Angle grinder') },
      behind('Bench: before a machine starts', 'Start: Spot welder'),
      behind('Bench: a refusal', 'Why not?: Welding bay'),
      behind('Bench: a machine tagged out', 'Why not?: Cold saw'),
      behind('Bench: moving out-by', /^Move out-by|^Out by/),
      behind('Bench: why these times', 'Why these times?'),
      behind('Bench: an ask', 'Ask for a buddy'),
      behind('Bench: what of the bells reaches a pocket', 'Bells in a pocket'),
      behind('Bench: which machine to tag out', 'Tag a machine out'),
      {
        state: 'Bench: tagging out',
        come: (phone) => phone.tap('Tag a machine out').then(() => inSheet(phone, 'Needle scaler')),
        leave: (phone) => phone.tap('Back'),
      },
      at('Door', 'Door inside'),
      at('Room'),
      {
        state: 'the wall board',
        come: async (phone) => {
          await phone.open('/board/forge');
          await expect(phone.page.locator('.board-row .steel-rule').first()).toBeVisible();
        },
        leave: (phone) => phone.tap('Muster'),
      },
      behind('Room: fire', 'Fire'),
      behind('Room: welding shades', 'Welding shades'),
      behind('Room: a tin', 'May I open this tin?'),
      {
        state: 'Room: a metal',
        come: (phone) => phone.tap('What metal is this?').then(() => phone.tap('lets go')),
        leave: (phone) => phone.tap('Back'),
      },
      behind('Room: where the mess is', 'Found a mess'),
      {
        state: 'Room: a mess',
        come: (phone) => phone.tap('Found a mess').then(() => inSheet(phone, 'Forge: the room itself')),
        leave: (phone) => phone.tap('Back'),
      },
      behind('Room: an incident', 'Tell the steward something'),
      at('Book'),
      behind('Book: my card', 'Show my card', 'Show my card'),
      { state: 'Book: my phones', come: (phone) => phone.tap('Look up my phones').then(() => phone.hears('this phone')) },
    ],
  },
  {
    name: 'looking after the shop',
    phones: [{ who: 'Marit' }, { who: 'Saar' }],
    rows: [
      page('Book: the walk', 'The walk'),
      {
        state: 'Book: a stop that asks',
        come: (marit) => marit.page.locator('button.row-act').nth(1).tap().then(() => expect(marit.page.locator('.stop-card .choices')).toBeVisible()),
      },
      page('Book: what I may run', 'What I may run'),
      page('Book: people', 'People'),
      { state: 'Book: one of them', come: (marit) => lookAt(marit, 'Saar') },
      {
        state: 'Book: a checklist',
        come: async (marit) => {
          // Grinding, the one training here for three machines, in whatever order a language has them.
          await marit.page.locator('li.row').filter({ hasText: /, .*, / }).locator('.looks button').first().tap();
          await expect(marit.page.locator('.together')).toBeVisible();
        },
      },
      {
        state: 'Book: a sign-off as a code',
        come: async (marit) => {
          for (const line of await marit.page.locator('button.tick').all()) await line.tap();
          await marit.tap('We did it all: sign');
          await expect(marit.page.locator('svg.qr-code')).toBeVisible();
        },
      },
      {
        state: 'Book: people and their phones',
        come: async (marit) => {
          await lookAt(marit, 'Saar');
          await marit.tap('Look up codes and phones');
          await expect(marit.button('Take it off').first()).toBeVisible();
        },
      },
      {
        state: 'Book: before a phone is taken off',
        come: async (marit) => {
          marit.taps += 1;
          await marit.button('Take it off').first().tap();
          await expect(marit.button('For good: take it off')).toBeVisible();
        },
      },
      {
        state: 'Book: a code for somebody',
        come: (marit) => codeFor(marit, 'Bram').then(() => expect(marit.page.locator('.typed-code')).toBeVisible()),
      },
      {
        state: 'Book: what the hub holds about one',
        come: async (marit) => {
          await marit.go('Book');
          await marit.tap('Look it up');
          await expect(marit.button('Have it erased')).toBeVisible();
        },
      },
      { state: 'Book: a card as a code', come: (marit) => marit.tap('Show my card') },
      {
        state: 'Book: figures',
        come: async (marit) => {
          await marit.open('/book/figures');
          await marit.hears('Counted on this phone, from all of the log that it has been told.');
        },
      },
      {
        state: 'Book: rounds kept',
        come: async (marit) => {
          await marit.open('/book/rounds');
          await marit.hears('Counted on this phone, from all of the log that it has been told.');
        },
      },
      {
        state: 'Book: codes to print',
        come: async (marit) => {
          await marit.open('/book/print');
          await marit.hears('One card for each place, to cut out along the dashes. Read from up to half a metre; keep them clean, and away from grinding dust.');
        },
      },
      {
        state: 'a round that was scanned',
        come: async (marit) => {
          await marit.open('/r/eyewash');
          await marit.hears('One touch writes it down under your name.');
        },
        leave: (marit) => marit.tap('Not now'),
      },
    ],
  },
  {
    name: "the steward's pages",
    phones: [{ who: 'Marit' }],
    rows: [
      page('Book: Today', 'Today'),
      page('Book: Repairs', 'Repairs'),
      {
        state: 'Repairs: saying more',
        come: (marit) => marit.tap('Say more'),
        leave: (marit) => marit.tap('Back'),
      },
      {
        state: 'Repairs: a picture',
        come: async (marit) => {
          await marit.go('Room');
          await marit.tap('Tag a machine out');
          await inSheet(marit, 'Needle scaler');
          await marit.page.locator('dialog textarea').fill('7');
          const asked = marit.page.waitForEvent('filechooser');
          await inSheet(marit, 'Tag it out with a picture');
          await (await asked).setFiles(PICTURE);
          await page('Book: Repairs', 'Repairs').come(marit);
          const picture = marit.page.locator('.picture').last();
          await picture.scrollIntoViewIfNeeded();
          await expect(picture).toHaveAttribute('data-is', 'here');
        },
      },
      behind('Repairs: a picture, whole', /^Picture of/),
      page('Book: Finds', 'Finds'),
      {
        state: 'Finds: a message to ask with',
        come: async (marit) => {
          marit.taps += 1;
          await marit.page.getByRole('button', { name: marit.says(/^A message to ask/) }).first().tap();
        },
      },
      {
        state: 'Finds: how it ended',
        come: async (marit) => {
          marit.taps += 1;
          await marit.page.getByRole('button', { name: marit.says('Note how it ended') }).first().tap();
        },
        leave: (marit) => marit.tap('Back'),
      },
      page('Book: Incidents', 'Incidents'),
      behind('Incidents: following one up', 'Follow it up'),
      {
        state: 'Book: rules',
        come: async (marit) => {
          await marit.open('/book/rules');
          await marit.hears('No problem found.');
        },
      },
    ],
  },
  {
    name: 'two buddies',
    phones: [
      { who: 'Ilse', room: 'Fitting' },
      { who: 'Bram', room: 'Fitting' },
    ],
    rows: [
      {
        state: 'a buddy without a phone: who',
        come: async (ilse, [bram]) => {
          await bram.go('Book');
          await bram.page.locator('#own-figures').fill('204817');
          await bram.tap('Keep these figures');
          await bram.hears('These are your figures from now on.');
          // News of it came to her; a page that is opened anew has them for sure.
          await expect(async () => {
            await ilse.open('/bench');
            await ilse.tap('Ask for a buddy');
            await expect(ilse.button('A buddy without a phone')).toBeVisible({ timeout: 2_000 });
          }).toPass();
          await ilse.tap('A buddy without a phone');
        },
      },
      {
        state: 'a buddy without a phone: their figures',
        come: (ilse) => inSheet(ilse, 'Bram'),
        leave: (ilse) => ilse.tap('Back'),
      },
      {
        state: 'being asked',
        of: 1,
        come: async (bram, [ilse]) => {
          await ilse.tap('Ask for a buddy');
          await scanAsk(ilse, bram);
        },
      },
      { state: 'an answer', of: 1, come: (bram) => bram.tap('I am in the room').then(() => bram.hears('Show them this')) },
      { state: 'a notice', come: (ilse) => ilse.hears('Bram is your buddy now.') },
      { state: 'Bench with a buddy', come: (ilse) => ilse.tap('Got it').then(() => startMachine(ilse, 'Mill')) },
    ],
  },
  {
    name: 'closing down',
    phones: [{ who: 'Marit', room: 'Forge' }],
    rows: [
      { state: 'Bench with nothing running', come: (phone) => phone.hears('Machines') },
      { state: 'Bench with hot work on', come: (phone) => startMachine(phone, 'Angle grinder') },
      at('Sweep', 'Sweep before it begins'),
      behind('how many sweep', 'Start sweeping'),
      {
        state: 'the bell of the last spark',
        come: (phone) => phone.go('Bench').then(() => bellOf(phone, 'Last spark', 'Last spark. No more hot work.')),
        leave: (phone) => phone.tap('Heard'),
      },
      {
        state: 'Bench after the last spark',
        come: async (phone) => {
          await phone.tap('Stop: Angle grinder');
          await expect(machine(phone, 'Angle grinder')).not.toContainText(phone.says(/runs,/));
        },
      },
      {
        state: 'the sweep bell',
        come: (phone) => bellOf(phone, 'Sweep from', 'Stop. Start sweeping.'),
      },
      behind('the sweep bell: how much longer', 'I need more time'),
      behind('the sweep bell: why it is not swept', 'I have left'),
      { state: 'Sweep', come: (phone) => phone.tap('Sweeping now').then(() => tickNext(phone)) },
      behind('before leaving', 'Leave'),
      {
        state: 'Book with an evening',
        come: async (phone) => {
          await phone.tap(/^Leave/);
          await phone.hears('Before you go');
          await phone.tap(/^Leave/);
          await phone.hears('At the door');
          await phone.go('Book');
          await phone.hears('Your evenings');
        },
      },
    ],
  },
  {
    name: 'the first pages',
    phones: [{ who: 'Saar', isNew: true }],
    rows: [
      { state: 'a first page: time', come: (phone) => phone.hears('It keeps your time') },
      { state: 'a first page: each other', come: (phone) => phone.tap('Next') },
      { state: 'a first page: the home screen', come: (phone) => phone.tap('Next') },
    ],
  },
  {
    name: 'a part of the app that does not come',
    phones: [{ who: 'Teun', without: LATER }],
    rows: [
      {
        state: 'a screen that did not come',
        come: async (phone) => {
          await phone.go('Book');
          await phone.hears('This part of the app has not come through.');
        },
      },
      {
        state: 'a sheet that did not come',
        come: async (phone) => {
          await phone.go('Door');
          await phone.tap('Scan the door code');
          await phone.hears('This part of the app has not come through.');
        },
        leave: (phone) => phone.tap('Back'),
      },
    ],
  },
];

// The longest first: begun last it would be waited for alone.
STORIES.sort((a, b) => b.rows.length - a.rows.length);

// Walks a story from its first row to its last. `visit` is handed the phone and the name of each state.
// With a `language` of languages.js all phones speak that.
export async function walk(browser, hub, story, visit, language) {
  const phones = [];
  for (const { who, room, isNew, without } of story.phones) {
    // What a worker keeps cannot be kept from a phone.
    const phone = await openPhone(browser, hub, { language, isNew, ...(without && { serviceWorkers: 'block' }) });
    phones.push(phone);
    if (who) await joined(phone, who);
    if (without) {
      await phone.context.route(without, (route) => route.abort());
      // Asked for by itself once, when the page is idle; from there on only when somebody asks.
      const refused = phone.page.waitForEvent('requestfailed', (request) => without.test(request.url()));
      await phone.open('/');
      await refused;
      await phone.hears('At the door');
    }
    if (room) await arrive(phone, room);
  }
  for (const { state, of = 0, come, leave } of story.rows) {
    const others = phones.filter((_, index) => index !== of);
    await come(phones[of], others);
    await visit(phones[of], state);
    await leave?.(phones[of], others);
  }
  for (const phone of phones) await phone.close();
}
