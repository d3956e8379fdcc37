/** Findings that no change of the drawing mends without a person's choice, and what that choice is: the table. Every
 * code of the findings stands here or in `remedies.ts`, never in both. */
export const needsAPerson: ReadonlyMap<string, string> = new Map([
  [
    "not-converged",
    "a person must find the size or level that is off: without an answer nothing can be tried, let alone seen to help",
  ],
  [
    "cut-not-converged",
    "a person must find the size or level that is off: a power cut without an answer cannot be seen to be mended",
  ],
  [
    "cut-loses-count",
    "the fault is the program's and not the drawing's: a change that hides it would mend nothing; report the drawing",
  ],
  [
    "judges-differ",
    "the fault is the program's and not the drawing's: a change that hides it would mend nothing; report the drawing",
  ],
  [
    "formulas-differ",
    "a person must decide which formula to count on: either can be chosen for the whole drawing, and the two differ all the same",
  ],
  [
    "upflow-fast",
    "a person must decide what the vessel is for: a home for bacteria may stay as it is, one that is to clear the water wants a larger plan",
  ],
  [
    "media-bypassed",
    "a person must decide where the supply shall come in under the stone, or whether the stone shall stand higher",
  ],
  ["outlet-narrow", "a person must measure the pump's outlet: no change of the drawing knows it"],
  [
    "watts-too-low",
    "a person must read the watts off the rating plate, or the curve off its sheet: one of the two is wrong",
  ],
  ["nothing-to-solve", "a person must decide where the pond, the pump and the pipes that are missing shall stand"],
  ["vessel-small", "a person must decide where a larger vessel, or another one, has room and what it may cost"],
  [
    "turnover-off",
    "a person must decide between another pump and another vessel: how often the water shall pass hangs on fish and plants",
  ],
  ["stand-in-curve", "a person must read the points off the maker's curve: no change of the drawing knows them"],
]);

/** Why nothing is offered for a code, as a sentence; null where it has remedies, or is the code of no finding. */
export function whyNoMend(code: string): string | null {
  const why = needsAPerson.get(code);
  return why === undefined ? null : `No change mends ${code} by itself: ${why}.`;
}
