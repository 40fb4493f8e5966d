// The browser's own Ed25519, where it has one. The private key cannot be exported and never passes through here as bytes.

// A new pair, or undefined where the browser cannot.
export async function generate() {
  try {
    const pair = await crypto.subtle.generateKey({ name: "Ed25519" }, false, ["sign", "verify"]);
    const raw = await crypto.subtle.exportKey("raw", pair.publicKey);
    return { key: pair.privateKey, raw: new Uint8Array(raw) };
  } catch {
    return undefined;
  }
}

// What is kept of a seed, where only the seed can be kept; before, its public key was not kept beside it.
export const seeded = (seed, raw) => ({ seed, raw });

export const keyOf = (kept) => kept?.key;
export const rawOf = (kept) => kept?.raw;
export const seedOf = (kept) => kept?.seed;

export async function sign(key, bytes) {
  return new Uint8Array(await crypto.subtle.sign("Ed25519", key, bytes));
}

export function fill(bytes) {
  crypto.getRandomValues(bytes);
  return bytes;
}
