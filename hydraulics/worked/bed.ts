/** What a vessel's bed does to the water that rises through it:
 * upflow, the grain that settles, the loss, the wet stone. */
import { cloggingOf, siteOf } from "../document/defaults.ts";
import { bottomOf } from "../document/geometry.ts";
import { oneLevel } from "../document/limits.ts";
import type { Section, Vessel } from "../document/section.ts";
import { type BedSlice, bedSlices, bedTop, planArea } from "../document/volumes.ts";
import { lossPerMetre } from "../formulas/ergun.ts";
import { dirtDensity } from "../formulas/stokes.ts";
import { waterDensity, waterViscosity } from "../formulas/water.ts";
import { atRest } from "../solver/rest.ts";
import type { RunningState, VesselReading } from "../solver/running.ts";
import { printed as p, type Worked } from "./worked.ts";

export function bedWorked(
  section: Section,
  vessel: Vessel,
  reading: VesselReading,
  running: RunningState,
): readonly Worked[] {
  const rising = reachesOf(section, vessel, running, reading.level);
  return [
    ...upflow(vessel, reading, rising),
    ...settling(section, reading),
    ...mediaLoss(section, vessel, reading, rising),
    ...wettedSurface(vessel, reading),
  ];
}

/** Between two openings, or the last one and the water's surface. */
interface Reach {
  readonly from: number;
  readonly to: number;
  /** m³/s upwards: what has entered below, less what has left there */
  readonly flow: number;
}

function reachesOf(section: Section, vessel: Vessel, running: RunningState, level: number): readonly Reach[] {
  const openings: { readonly level: number; readonly into: number }[] = [];
  for (const part of section.parts.values()) {
    if (part.kind === "pump" && part.in === vessel.id)
      openings.push({ level: part.z, into: -(running.pumps.get(part.id)?.flow ?? 0) });
    if (part.kind !== "pipe") continue;
    const pipe = running.pipes.get(part.id);
    const ends = [
      [part.from, -(pipe?.flow ?? 0)],
      [part.to, pipe?.stretches.at(-1)?.[2] ?? 0],
    ] as const;
    for (const [end, into] of ends)
      if ("part" in end && end.part === vessel.id) openings.push({ level: end.z ?? bottomOf(vessel), into });
  }
  const under = openings.filter((opening) => opening.level < level).sort((a, b) => a.level - b.level);
  let flow = 0;
  return under.flatMap((opening, k) => {
    flow += opening.into;
    const to = under[k + 1]?.level ?? level;
    return to - opening.level < oneLevel ? [] : [{ from: opening.level, to, flow }];
  });
}

function upflow(vessel: Vessel, reading: VesselReading, rising: readonly Reach[]): readonly Worked[] {
  const greatest = Math.max(0, ...rising.map(({ flow }) => flow));
  if (!isNear(greatest / planArea(vessel), reading.upflow)) return [];
  const { plan } = vessel;
  return [
    {
      what: "Upflow",
      law: "U = Q / A",
      expression:
        plan.shape === "round"
          ? `3600 · ${p(greatest)} / (3.14159 · ${p(plan.diameter)}^2 / 4)`
          : `3600 · ${p(greatest)} / (${p(plan.width)} · ${p(plan.length)})`,
      result: 3600 * reading.upflow,
      unit: "m/h",
      source: "the open plan, as water works count it; between stones the water is faster by one over the voids",
    },
  ];
}

function settling(section: Section, { settlingDiameter, upflow: U }: VesselReading): readonly Worked[] {
  if (settlingDiameter === null || !Number.isFinite(settlingDiameter)) return [];
  const { waterTemperature } = siteOf(section);
  return [
    {
      what: "Smallest grain that settles",
      law: "d = √(18·μ·U / ((ρp − ρ)·g))",
      expression: `1000 · √(18 · ${p(waterViscosity(waterTemperature))} · ${p(U)} / ((${dirtDensity} − ${p(waterDensity(waterTemperature))}) · 9.80665))`,
      result: 1000 * settlingDiameter,
      unit: "mm",
      source: `Stokes' law; pond dirt of ${dirtDensity} kg/m³: common practice, no source`,
    },
  ];
}

/** From the lowest opening to the surface. Where water goes down through stone, nothing is said. */
function mediaLoss(
  section: Section,
  vessel: Vessel,
  reading: VesselReading,
  rising: readonly Reach[],
): readonly Worked[] {
  const { waterTemperature } = siteOf(section);
  const viscosity = waterViscosity(waterTemperature);
  const density = waterDensity(waterTemperature);
  const inStone = rising.filter(({ from, flow }) => from < bedTop(vessel) && Math.abs(flow) > atRest);
  if (!(reading.mediaLoss > 0) || inStone.some(({ flow }) => flow < 0)) return [];
  const terms = inStone.flatMap(({ from, to, flow }) => {
    const U = flow / planArea(vessel);
    return bedSlices(vessel).flatMap((slice) => {
      const depth = Math.min(slice.to, to) - Math.max(slice.from, from);
      return depth > 0 ? [ergunTerm(slice, depth, U)] : [];
    });
  });
  const clogging = cloggingOf(vessel);
  const sum = terms.map(({ text }) => text).join(" + ");
  const loss = clogging * terms.reduce((all, { loss: each }) => all + each, 0);
  if (!isNear(loss, reading.mediaLoss)) return [];
  return [
    {
      what: "Loss in the stone",
      law: `h = ${clogging === 1 ? "" : "clogging · "}Σ depth·(150·μ·(1−ε)²·U/(ε³·d²·ρ·g) + 1.75·(1−ε)·U²/(ε³·d·g))`,
      expression: clogging === 1 ? sum : `${p(clogging)} · (${sum})`,
      result: reading.mediaLoss,
      unit: "m",
      source: "Ergun 1952, layer by layer from the lowest opening up; ε voids, d grain",
    },
  ];

  function ergunTerm({ grain, porosity }: BedSlice, depth: number, U: number) {
    const solid = `(1 − ${p(porosity)})`;
    const slow = `150 · ${p(viscosity)} · ${solid}^2 · ${p(U)} / (${p(porosity)}^3 · ${p(grain)}^2 · ${p(density)} · 9.80665)`;
    const fast = `1.75 · ${solid} · ${p(U)}^2 / (${p(porosity)}^3 · ${p(grain)} · 9.80665)`;
    return {
      text: `${p(depth)} · (${slow} + ${fast})`,
      loss: depth * lossPerMetre(U, { grain, porosity, viscosity, density }),
    };
  }
}

function wettedSurface(vessel: Vessel, reading: VesselReading): readonly Worked[] {
  const terms = bedSlices(vessel).flatMap(({ from, to, grain, porosity }) => {
    const wet = Math.min(to, reading.level) - from;
    return wet > 0 ? [`${p(planArea(vessel))} · ${p(wet)} · 6 · (1 − ${p(porosity)}) / ${p(grain)}`] : [];
  });
  if (terms.length === 0) return [];
  return [
    {
      what: "Wetted stone",
      law: "Σ A·depth·6·(1−ε)/d",
      expression: terms.join(" + "),
      result: reading.wettedSurface,
      unit: "m²",
      source: "geometry of spheres; broken stone has 20 to 50 % more (from memory)",
    },
  ];
}

/** As near as the solver settles: a line is only said where it is the solver's own figure. */
const isNear = (mine: number, read: number): boolean => read > 0 && Math.abs(mine / read - 1) < 3e-4;
