/** Section → Network: bodies, pipes, pumps, vents and sills as nodes and links.
 *
 *   body surface ── bed ── opening in the media ── mouth ── pipe end ── stretch ── tee ── stretch ── …
 *
 * Full lines have a node at each end, tee and vent. A gravity pipe is one link from body to body, cut at tees and
 * vents only. Every body is a node, whether its level is given (a pond while the pumps run) or found. Each kind of
 * part has a file that adds its own; what they add to is a `Draft`. */
import type { PartId, Section } from "../document/section.ts";
import { addBodies } from "./bodies.ts";
import { type BuildOptions, beginDraft } from "./draft.ts";
import { fullPipe } from "./fullPipes.ts";
import { gravityPipe } from "./gravityPipes.ts";
import type { Network, PipeModel } from "./network.ts";
import { addNodePlaces } from "./nodePlaces.ts";
import { addPumps } from "./pumps.ts";
import { addSpillways } from "./spillways.ts";
import { addVents } from "./vents.ts";

export function buildNetwork(section: Section, options: BuildOptions): Network {
  const draft = beginDraft(section, options);
  addBodies(draft);
  addPumps(draft);
  addNodePlaces(draft);
  const pipes = new Map<PartId, PipeModel>();
  for (const [id, pipe] of draft.layout.pipes)
    pipes.set(id, pipe.runs === "full" ? fullPipe(draft, pipe) : gravityPipe(draft, pipe));
  const vents = addVents(draft);
  const spillways = addSpillways(draft);
  const { nodes, links, bodies, pumps, branchAir } = draft;
  return { section, nodes, links, bodies, pipes, pumps, vents, spillways, branchAir };
}
