// How large a place is: told once it has been laid out and each time that changes, for a picture later, so that what is drawn for it
// does not block the page in one piece with the layout. A place in a sheet that is not up yet has no size until it is.

// Gives what ends it: nothing is told from then on, whatever was measured before.
export function onSize(place, told) {
  let over = false;
  const sizes = new ResizeObserver(() => requestAnimationFrame(() => over || told(place.clientWidth, place.clientHeight)));
  sizes.observe(place);
  return () => {
    over = true;
    sizes.disconnect();
  };
}

export const lookAway = (end) => end();
