// Whether the hub can ring this phone; all of it in the later part, got here once, so that a touch finds it there.

let it;

export const state = async (key) => (it ??= await import("/later_push.js")).state(key);
export const arm = (key) => it.arm(key);
export const end = () => it?.end();
