/** A vent made to do its work: its open end over what stands in it, its bore ample in the power cut and as sold. */
import { ventEnd } from "../document/defaults.ts";
import type { Part, PartId, Section, Vent } from "../document/section.ts";
import { rateVents } from "../powerCut/rateVents.ts";
import { startLevelsOf } from "../powerCut/startLevels.ts";
import { solveSteady } from "../solver/steady.ts";
import { upToMm } from "./rounding.ts";
import { ventBoreFrom } from "./soldSizes.ts";

/** m over what would stand in it */
const clear = 0.05;
/** over the bore that is just ample */
const spare = 1.05;

/** Null where no bore up to the pipe's is ample, or the state cannot be found. */
export function withAmpleVent(section: Section, id: PartId): Section | null {
  const raised = withEndClear(section, id);
  if (!raised) return null;
  const vent = raised.parts.get(id);
  const pipe = vent?.kind === "vent" ? raised.parts.get(vent.on.pipe) : undefined;
  if (vent?.kind !== "vent" || pipe?.kind !== "pipe") return null;
  const state = solveSteady(raised);
  if (!state.solved.converged) return null;
  const asFull = state.network.pipes.get(pipe.id)?.runs === "gravity" ? new Set([pipe.id]) : new Set<PartId>();
  const rated = rateVents(raised, startLevelsOf(state), asFull).get(id);
  if (!rated || rated.ampleBore === null) return raised;
  if (rated.rating === "ample") return raised;
  const bore = ventBoreFrom(rated.ampleBore * spare);
  return bore === null || bore > pipe.bore ? null : withPart(raised, { ...vent, bore });
}

/** The open end led up over the water that stands in the vent while the pumps run. */
function withEndClear(section: Section, id: PartId): Section | null {
  const state = solveSteady(section);
  const model = state.network.vents.get(id);
  if (!state.solved.converged || !model) return null;
  const stands = model.teeLevel + (state.ratings.get(id)?.pressureHead ?? 0);
  const end = ventEnd(model.vent, model.teeLevel);
  if (end >= stands + clear / 2) return section;
  return withPart(section, { ...model.vent, openEndZ: upToMm(stands + clear) });
}

export const withPart = (section: Section, part: Part): Section => ({
  ...section,
  parts: new Map([...section.parts, [part.id, part]]),
});

/** The vent opened fully, with the bore that is ample then. */
export const fullyOpen = (vent: Vent): Vent => {
  const { open: _open, ...rest } = vent;
  return rest;
};
