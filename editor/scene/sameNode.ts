/** Whether two nodes, or lists of them, would paint the same: small trees of numbers and words. */
export function sameNode(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!sameNode(a[i], b[i])) return false;
    return true;
  }
  let more = 0;
  for (const key in a) {
    if (!sameNode((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key])) return false;
    more += 1;
  }
  for (const _ in b) more -= 1;
  return more === 0;
}
