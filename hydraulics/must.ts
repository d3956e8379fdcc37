/** A broken promise of our own code: never shown as a finding, never caught but at the edges. */
export class Broken extends Error {
  override name = "Broken";
}

export function must(condition: unknown, promise: string): asserts condition {
  if (!condition) throw new Broken(promise);
}
