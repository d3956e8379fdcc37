import { readFileSync } from "node:fs";
import { readSection } from "../../hydraulics/document/read.ts";
import { surveyFaults } from "../../hydraulics/faults/index.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { time } from "./time.ts";

/** A drawing of the usual size, as a person has it open: 11 parts. Run from the top folder, as npm does. */
export function benchScenario(): void {
  const read = readSection(readFileSync("test/scenarios/design/gallons.json", "utf8"));
  if (!read.ok) throw new Error("the timed drawing is refused");
  const section = read.value;
  const name = `${section.parts.size} parts`;
  const state = solveSteady(section);
  const powerCut = simulatePowerCut(section, state);
  time(`running state, ${name}, from nothing`, () => solveSteady(section));
  time(`running state, ${name}, from the state before`, () => solveSteady(section, { from: state }));
  time(`power cut, ${name}`, () => simulatePowerCut(section, state));
  time(`survey of single faults, ${name}`, () => surveyFaults(section, { state, powerCut }));
}
