// The camera: how it is lit and read is in the later part.

export const start = (...given) => import("/later_camera.js").then((it) => it.start(...given));
