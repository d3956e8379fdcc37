/** Mends: concrete changes to the drawing that were seen to remove a finding. */
export { mendsFor } from "./mendsFor.ts";
export { needsAPerson, whyNoMend } from "./needsAPerson.ts";
export { remedies } from "./remedies.ts";
