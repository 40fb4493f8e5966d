// One request to the hub, with a time limit; and its stream of events. Knows paths from its caller alone.

// A longer body is worth compressing: lines of a log repeat much of each other.
const packedFrom = 2048;

function packed(body) {
  return new Response(new Blob([body]).stream().pipeThrough(new CompressionStream("gzip"))).arrayBuffer();
}

// Resolves to [status, content type, seconds of Retry-After, text]; throws "offline" or "slow".
export async function call(method, path, body, limitMs) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), limitMs);
  try {
    const pack = body.length > packedFrom && "CompressionStream" in globalThis;
    const headers = body ? { "content-type": "application/json" } : {};
    if (pack) headers["content-encoding"] = "gzip";
    const answer = await fetch(path, {
      method,
      body: pack ? await packed(body) : body || undefined,
      headers,
      credentials: "same-origin",
      cache: "no-store",
      signal: stop.signal,
    });
    const after = Number(answer.headers.get("retry-after")) || 0;
    return [answer.status, answer.headers.get("content-type") ?? "", after, await answer.text()];
  } catch {
    throw stop.signal.aborted ? "slow" : "offline";
  } finally {
    clearTimeout(timer);
  }
}

let source = null;

// Listens to the hub until told otherwise: `told(kind, data)`, and `told("closed", "")` when it ends. The browser would try again
// every few seconds for as long as there is no hub: whether there is one, and when to listen again, is asked by the sync.
export function listen(path, kinds, told) {
  hush();
  source = new EventSource(path);
  for (const kind of kinds) source.addEventListener(kind, (event) => told(kind, event.data ?? ""));
  source.onopen = () => told("open", "");
  source.onerror = () => {
    hush();
    told("closed", "");
  };
}

function hush() {
  source?.close();
  source = null;
}
