// The slow digest of somebody's figures: PBKDF2 with HMAC-SHA-256, by the browser, which is quicker at it than we are.

// 32 bytes, or undefined where the browser cannot.
export async function digest(figures, salt, rounds) {
  try {
    const key = await crypto.subtle.importKey("raw", new TextEncoder().encode(figures), "PBKDF2", false, ["deriveBits"]);
    const bits = await crypto.subtle.deriveBits({ name: "PBKDF2", hash: "SHA-256", salt, iterations: rounds }, key, 256);
    return new Uint8Array(bits);
  } catch {
    return undefined;
  }
}
