/** Flush valves that stand open, shut. */
import { valveOpen, valveRole } from "../document/defaults.ts";
import type { Part, PartId, Section } from "../document/section.ts";
import { called } from "../findings/words.ts";
import type { Candidate, Remedy } from "./remedy.ts";

/** Those that the finding names. */
export const shutFlush: Remedy = ({ section, finding }) => shut(section, finding.parts);

/** Those on the pipes out of the vessel that it names. */
export const shutFlushOf: Remedy = ({ section, assessed, finding }) => {
  const valves = [...assessed.state.network.pipes.values()]
    .filter(({ from, to }) => [from, to].some((end) => end.kind === "body" && finding.parts.includes(end.opening.body)))
    .flatMap((pipe) => pipe.valves.map(({ valve }) => valve.id));
  return shut(section, valves);
};

function* shut(section: Section, ids: readonly PartId[]): Generator<Candidate> {
  const open = ids.flatMap((id) => {
    const part = section.parts.get(id);
    return part?.kind === "valve" && valveRole(part) === "flush" && valveOpen(part) > 0 ? [part] : [];
  });
  if (open.length === 0) return;
  const parts = new Map<PartId, Part>(section.parts);
  for (const valve of open) parts.set(valve.id, { ...valve, open: 0 });
  yield { label: `Shut ${open.map(({ id }) => called(section, id)).join(" and ")}`, section: { ...section, parts } };
}
