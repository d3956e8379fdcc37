import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { time } from "./time.ts";
import { yard } from "./yard.ts";

export function benchRunningState(): void {
  time("running state, 30 parts, from nothing", () => solveSteady(yard));
  const before = solveSteady(yard);
  time("running state, 30 parts, from the state before", () => solveSteady(yard, { from: before }));
}
