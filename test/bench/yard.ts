/** The drawing that is timed: 30 parts, of them five vessels, three pumps, a vent, a check valve and a spillway. */
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { randomSection } from "../support/randomSection.ts";

export const yard = randomSection({ seed: 22, size: 5 });

// A time of something else than what its line says would mislead: say so when the random drawings change.
if (yard.parts.size !== 30 || !solveSteady(yard).solved.converged) {
  throw new Error("The timed drawing no longer has 30 parts and a solution: choose another seed.");
}
