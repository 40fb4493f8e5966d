// How large a place is: told once it has been laid out and each time that changes, for a picture later, so that what is drawn for it
// does not block the page in one piece with the layout. A place in a sheet that is not up yet has no size until it is.

export function onSize(place, told) {
  const sizes = new ResizeObserver(() => requestAnimationFrame(() => place.isConnected && told(place.clientWidth, place.clientHeight)));
  sizes.observe(place);
  return sizes;
}

export const lookAway = (sizes) => sizes.disconnect();
