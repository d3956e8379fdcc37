import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { time } from "./time.ts";
import { yard } from "./yard.ts";

export function benchPowerCut(): void {
  const running = solveSteady(yard);
  time("power cut, 30 parts", () => simulatePowerCut(yard, running));
}
