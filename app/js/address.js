// The page's address and its history. A link within the app is no load; one that stands in a sheet closes it. The screen is
// told a turn later: what the touch itself takes and what drawing takes need not block the page in one piece.

export const path = () => location.pathname;

export function setPath(to, replace) {
  if (to === location.pathname && !location.hash) return;
  // What has the focus goes with its screen. Taken out while it still has it, it makes the browser lay out at once what comes.
  document.querySelector("main :focus")?.blur();
  replace ? history.replaceState(null, "", to) : history.pushState(null, "", to);
}

export function onPath(told) {
  addEventListener("popstate", () => told(location.pathname));
  // A notice was touched, and says where it belongs.
  navigator.serviceWorker?.addEventListener("message", ({ data }) => {
    if (!data?.show) return;
    setPath(data.show, false);
    told(location.pathname);
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("a[href]");
    const own = link && link.origin === location.origin && !link.target && !link.hasAttribute("download");
    const plain = !event.defaultPrevented && event.button === 0 && !(event.ctrlKey || event.metaKey || event.shiftKey || event.altKey);
    if (!own || !plain) return;
    event.preventDefault();
    link.closest("dialog")?.dispatchEvent(new Event("cancel", { cancelable: true }));
    setPath(link.pathname, false);
    setTimeout(() => told(location.pathname));
  });
}
