import { isStuckOpen, openingHeadOf, pipeC, pipeRoughness, siteOf } from "../document/defaults.ts";
import type { Pipe, Section } from "../document/section.ts";
import { frictionFactor } from "../elements/darcyWeisbach.ts";
import { kinematicViscosity } from "../formulas/water.ts";
import { lossesOf } from "../materials/lossesOf.ts";
import type { PipeReading } from "../solver/running.ts";
import { printed as p, type Worked } from "./worked.ts";

/** Friction by the formula in use first, then the other one, velocity, Reynolds number and fittings. */
export function pipeWorked(section: Section, pipe: Pipe, reading: PipeReading): readonly Worked[] {
  if (reading.flow === 0) return [];
  const stretches = stretchesOf(pipe, reading);
  const usesHazen = siteOf(section).friction === "hazen-williams";
  const hazen = hazenWilliams(pipe, stretches, usesHazen ? reading.frictionLoss : reading.otherFormulaLoss);
  const darcy = darcyWeisbach(section, pipe, stretches, usesHazen ? reading.otherFormulaLoss : reading.frictionLoss);
  const viscosity = kinematicViscosity(siteOf(section).waterTemperature);
  return [
    ...(usesHazen ? [hazen, darcy] : [darcy, hazen]),
    {
      what: "Velocity",
      law: "V = Q / (π·D²/4)",
      expression: `${p(Math.abs(reading.flow))} / (3.14159 · ${p(pipe.bore)}^2 / 4)`,
      result: reading.velocity,
      unit: "m/s",
      source: "what flows through an area",
    },
    {
      what: "Reynolds number",
      law: "Re = V·D/ν",
      expression: `${p(reading.velocity)} · ${p(pipe.bore)} / ${p(viscosity)}`,
      result: reading.reynolds,
      unit: "",
      source: "its definition; ν of water by IAPWS correlations",
    },
    ...fittings(section, pipe, reading),
    ...(reading.length > 0
      ? [
          {
            what: "Friction per metre",
            law: "h/L",
            expression: `${p(reading.frictionLoss)} / ${p(reading.length)}`,
            result: reading.lossPerMetre,
            unit: "m/m",
            source: "friction alone, over drawn and extra length",
          },
        ]
      : []),
  ];
}

interface Stretch {
  readonly length: number;
  readonly flow: number;
}

/** Between tees; length not drawn lies at the start. Neighbours of one flow are one. */
function stretchesOf(pipe: Pipe, reading: PipeReading): readonly Stretch[] {
  const drawn = reading.stretches.at(-1)?.[1] ?? 0;
  const extra = Math.max(0, reading.length - drawn);
  const joined: { length: number; flow: number }[] = [];
  reading.stretches.forEach(([start, end, flow], k) => {
    const length = end - start + (k === 0 ? extra : 0);
    const last = joined.at(-1);
    if (last && Math.abs(last.flow - flow) < 1e-12) last.length += length;
    else joined.push({ length, flow });
  });
  return joined.filter(({ length, flow }) => length > 1e-9 && Math.abs(flow) > 0 && pipe.bore > 0);
}

function hazenWilliams(pipe: Pipe, stretches: readonly Stretch[], result: number): Worked {
  const terms = stretches.map(({ length, flow }) => `${p(length)} · ${p(Math.abs(flow))}^1.852`);
  const sum = terms.length === 1 ? terms[0] : `(${terms.join(" + ")})`;
  return {
    what: "Friction by Hazen-Williams",
    law: "h = 10.67·L·Q^1.852 / (C^1.852·D^4.8704)",
    expression: `10.67 · ${sum ?? "0"} / (${p(pipeC(pipe))}^1.852 · ${p(pipe.bore)}^4.8704)`,
    result,
    unit: "m",
    source: "Hazen-Williams, SI form; C by the material's table or as typed",
  };
}

function darcyWeisbach(section: Section, pipe: Pipe, stretches: readonly Stretch[], result: number): Worked {
  const viscosity = kinematicViscosity(siteOf(section).waterTemperature);
  const area = (Math.PI * pipe.bore ** 2) / 4;
  const terms = stretches.map(({ length, flow }) => {
    const velocity = Math.abs(flow) / area;
    const f = frictionFactor((velocity * pipe.bore) / viscosity, pipeRoughness(pipe) / pipe.bore);
    return `${p(f)} · ${p(length)} / ${p(pipe.bore)} · ${p(velocity)}^2 / (2 · 9.80665)`;
  });
  return {
    what: "Friction by Darcy-Weisbach",
    law: "h = f·L/D·V²/2g",
    expression: terms.length === 0 ? "0" : terms.join(" + "),
    result,
    unit: "m",
    source: `Darcy-Weisbach; f by Colebrook-White at a roughness of ${p(pipeRoughness(pipe) * 1000)} mm (64/Re where laminar)`,
  };
}

/** Where tees change the flow along the pipe no one velocity bears them all, and nothing is said. (A vent's tee cuts
 * the pipe in two for the solver, but the flow is the same on both sides.) */
function fittings(section: Section, pipe: Pipe, reading: PipeReading): readonly Worked[] {
  if (reading.stretches.some(([, , flow]) => Math.abs(flow - reading.flow) > 1e-9)) return [];
  const items = lossesOf(section, pipe, reading.flow > 0);
  if (items.length === 0) return [];
  const opening = [...section.parts.values()].reduce(
    (head, part) =>
      part.kind === "checkValve" && part.on.pipe === pipe.id && !isStuckOpen(part) && reading.flow > 0
        ? head + openingHeadOf(part)
        : head,
    0,
  );
  const sum = items.map(({ count, k }) => (count === 1 ? p(k) : `${count} · ${p(k)}`)).join(" + ");
  return [
    {
      what: "Bends, fittings and ends",
      law: opening > 0 ? "h = ΣK·V²/2g + what opens the check valve" : "h = ΣK·V²/2g",
      expression: `(${sum}) · ${p(reading.velocity)}^2 / (2 · 9.80665)${opening > 0 ? ` + ${p(opening)}` : ""}`,
      result: reading.fittingLoss,
      unit: "m",
      source: `${items.map(({ what, count }) => (count === 1 ? what : `${count} × ${what}`)).join(", ")}; K by the table of fittings`,
    },
  ];
}
