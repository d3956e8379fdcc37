/** What is being typed is taken before anything else is done with the drawing: a press on the sheet may take the field
 * away, another drawing that is opened the whole slip. */
export function keepTyped(): void {
  const field = document.activeElement;
  if (field instanceof HTMLElement && field.closest("input, textarea")) field.blur();
}
