// How long an act takes somebody who is slow at it: the keystroke-level model, at its slowest typist.
//
// Operator times: S. Card, T. Moran, A. Newell, "The keystroke-level model for user performance time with interactive
// systems", Communications of the ACM 23(7), 1980 (seen as quoted in lecture notes, not in the paper): M 1.35 s to prepare,
// P 1.10 s to point, K 0.20 s to press a button, K 1.20 s a key for the worst typist, who does not know the keyboard. A
// pointer of 1980 is no thumb; that a thumb at 64 px is no slower is common practice, no source.
// Reading: 238 words a minute, an adult reading silently (M. Brysbaert, 2019; from memory). What is to be read before a
// touch takes the place of preparing for it where it takes longer.

const [PREPARE_S, POINT_S, PRESS_S, KEY_S] = [1.35, 1.1, 0.2, 1.2];
const WORDS_A_MINUTE = 238;

// One touch, after reading so many words.
export function touchSeconds(words = 0) {
  return Math.max(PREPARE_S, (words / WORDS_A_MINUTE) * 60) + POINT_S + PRESS_S;
}

// One sentence, typed key by key.
export function typingSeconds(text) {
  return PREPARE_S + text.length * KEY_S;
}

export function wordsOf(text) {
  return text.trim().split(/\s+/).length;
}
