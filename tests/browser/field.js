// Writing into a long field: the driver's own way types it all, which takes it seconds; a member pastes.

export async function write(field, change) {
  const text = change(await field.inputValue());
  await field.evaluate((area, value) => {
    area.value = value;
    area.dispatchEvent(new Event('input', { bubbles: true }));
  }, text);
}
