// Dialogs come up a turn after the touch that asked for them, and what had the focus has it again a turn after they are gone. The
// browser lays the page out for each of these at once: with what is drawn it would block the page in one piece. One in which
// typing can begin comes up in the touch itself, because a phone opens its keyboard for nothing else.

const before = new WeakMap();
// By a message: a timer is held back where the page is out of sight, and a bell's dialog must not be.
const nextTurn = (act) => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = act;
  port2.postMessage(0);
};
// Between a dialog's end and the turn after it.
let last = null;

export function comesUp(dialog) {
  const focused = document.activeElement;
  before.set(dialog, focused === document.body ? last : focused);
  // It may be gone again by then.
  const up = () => dialog.isConnected && dialog.showModal();
  dialog.querySelector("textarea") ? up() : nextTurn(up);
}

export function goes(dialog) {
  last = before.get(dialog);
  nextTurn(() => {
    if (document.activeElement === document.body) last?.focus({ preventScroll: true });
    last = null;
  });
}
