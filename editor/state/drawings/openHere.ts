/** Which drawing this window shows: a hint for its next reload, never the drawing itself. A browser may forbid even
 * that; then the window opens what any window opened last. */
const key = "holdwater open";

export function rememberOpenHere(id: string): void {
  try {
    sessionStorage.setItem(key, id);
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
  }
}

export function openHere(): string | null {
  try {
    return sessionStorage.getItem(key);
  } catch (error) {
    if (error instanceof DOMException) return null;
    throw error;
  }
}
