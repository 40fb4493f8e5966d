// Asking the hub, and listening to it: all of it is in the later part. What cannot be had is as if there were no network.

const hub = () => import("/later_hub.js");

export const call = (...given) => hub().then((it) => it.call(...given));
export const listen = (...given) => void hub().then((it) => it.listen(...given)).catch(() => given[2]("closed", ""));
