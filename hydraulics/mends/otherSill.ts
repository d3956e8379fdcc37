/** A sill that spills onto the ground: its crest raised over the water, or its sheet led into the pond. */
import type { Body, Section, Spillway } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";
import { upToMm } from "./rounding.ts";

/** m over the running water, tried in turn: with the sill shut off the water rises */
const over = [0.01, 0.03, 0.06];

export const raiseSill: Remedy = function* ({ section, assessed, finding }) {
  const { sill, body } = sillOf(section, finding.parts) ?? {};
  const { running } = assessed;
  if (!sill || !body || !running.converged) return;
  const level = body.kind === "pond" ? body.waterLevel : (running.vessels.get(body.id)?.level ?? null);
  if (level === null) return;
  for (const more of over) {
    const crestZ = upToMm(level + more);
    if (crestZ >= body.rimLevel) return;
    yield {
      label: `Raise the crest of ${called(section, sill.id)} to ${levelWords(crestZ)}`,
      section: withPart(section, { ...sill, crestZ }),
    };
  }
};

export const sillIntoPond: Remedy = function* ({ section, finding }) {
  const { sill, body } = sillOf(section, finding.parts) ?? {};
  if (!sill || !body) return;
  for (const pond of section.parts.values()) {
    if (pond.kind !== "pond" || pond.id === body.id || pond.waterLevel >= sill.crestZ) continue;
    yield {
      label: `Let ${called(section, sill.id)} spill into ${called(section, pond.id)}`,
      section: withPart(section, { ...sill, to: pond.id }),
    };
  }
};

function sillOf(section: Section, ids: readonly Body["id"][]): { sill: Spillway; body: Body } | null {
  const sill = ids[0] === undefined ? undefined : section.parts.get(ids[0]);
  const body = sill?.kind === "spillway" ? section.parts.get(sill.from) : undefined;
  return sill?.kind === "spillway" && (body?.kind === "pond" || body?.kind === "vessel") ? { sill, body } : null;
}
