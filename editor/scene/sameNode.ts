/** Whether two nodes, or lists of them, would paint the same: small trees of numbers and words. */
export function sameNode(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!sameNode(a[i], b[i])) return false;
    return true;
  }
  const names = Object.keys(a);
  if (names.length !== Object.keys(b).length) return false;
  for (const name of names)
    if (!sameNode((a as Record<string, unknown>)[name], (b as Record<string, unknown>)[name])) return false;
  return true;
}
