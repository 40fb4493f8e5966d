// What `beside.js` times the app beside: its five screens, their words and their markup, in the smallest framework that a web
// developer would take. It keeps its state on the phone and starts without a network; it signs nothing, plans nothing, syncs nothing.

import { h, render } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Bench, Book, Door, Room, Sweep } from '/screens.js';
import { act, open } from '/store.js';

const PLACES = [['Door', '/', Door], ['Bench', '/bench', Bench], ['Sweep', '/sweep', Sweep], ['Room', '/room', Room], ['Book', '/book', Book]];

function App({ first }) {
  const [state, show] = useState(first);
  const [path, setPath] = useState(location.pathname);
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  const go = (to) => {
    history.pushState(null, '', to);
    setPath(to);
  };
  // Nothing is shown as done before it is durable.
  const send = async (what) => show(await act(state, what, Date.now()));
  const Screen = (PLACES.find(([, href]) => href === path) ?? PLACES[0])[2];
  const place = ([name, href]) => {
    const touched = (event) => {
      event.preventDefault();
      go(href);
    };
    return h('a', { class: 'place', href, 'aria-current': href === path ? 'page' : undefined, onClick: touched }, name);
  };
  return h('div', { class: 'frame' }, h(Screen, { state, send, go, now }), h('nav', { class: 'places', 'aria-label': 'Places' }, PLACES.map(place)));
}

const first = await open();
render(h(App, { first }), document.body);
navigator.serviceWorker.register('/sw.js');
