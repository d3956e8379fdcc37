/** Why the browser's store did not do what it should, to go on from a colon. What browsers say themselves differs, and
 * is often nothing. */
export function troubleWords(error: unknown): string {
  if (error instanceof Error && error.name === "QuotaExceededError") return "its store is full";
  const said = error instanceof Error ? error.message : error ? String(error) : "";
  return said.trim().replace(/\.$/, "") || "it does not say why";
}
