// Reading aloud (Web Speech API): a help where the phone has it, never needed.

export const canSpeak = () => "speechSynthesis" in globalThis;

export function speak(text) {
  if (!canSpeak()) return;
  speechSynthesis.cancel();
  const words = new SpeechSynthesisUtterance(text);
  words.lang = document.documentElement.lang;
  speechSynthesis.speak(words);
}

export function stopSpeaking() {
  if (canSpeak()) speechSynthesis.cancel();
}
