// Pictures: taken, handed to the hub, shown. All of it is in the later part; what fails there is as if no picture had been taken, sent
// or found.

const later = () => import("/later_pictures.js");

export const take = () => later().then((it) => it.take()).catch(() => {});
export const hand = () => void later().then((it) => it.hand()).catch(() => {});
export const show = (place, sha) => void later().then((it) => it.show(place, sha)).catch(() => (place.dataset.is = "missing"));
