import { lineLength, pipeLine } from "../../document/geometry.ts";
import type { Pipe, Section } from "../../document/section.ts";
import type { RunningState } from "../../solver/running.ts";
import { judged, type Rule } from "./rule.ts";

export function pipeRules(section: Section, pipe: Pipe, running: RunningState): readonly Rule[] {
  const reading = running.pipes.get(pipe.id);
  if (!reading || reading.flow === 0) return [];
  if (reading.runs === "full")
    return [
      judged({
        code: "velocity",
        part: pipe.id,
        rule: "Velocity in a pumped pipe, for which the formula is told to hold",
        least: null,
        most: 3,
        quantity: "velocity",
        has: reading.velocity,
        source: "published",
        where: "irrigation glossary and public tables: about 1 to 3 m/s",
      }),
    ];
  const line = pipeLine(section, pipe);
  const fall = Math.abs((line[0]?.[1] ?? 0) - (line.at(-1)?.[1] ?? 0));
  const length = lineLength(line);
  return [
    judged({
      code: "self-venting",
      part: pipe.id,
      rule: "Froude number at which a return vents itself, V/√(gD) run full",
      least: null,
      most: 0.3,
      quantity: "ratio",
      has: reading.froude,
      source: "published",
      where: "three public notes after Hills, Chem. Eng. 1983; some write V²/(gD) with the same 0.3",
    }),
    judged({
      code: "fall",
      part: pipe.id,
      rule: "Fall of a return, per length",
      least: 0.02,
      most: null,
      quantity: "share",
      has: length > 0 ? fall / length : null,
      source: "published",
      where: "a seller's drawing note: a quarter inch a foot besides the losses",
    }),
  ];
}
