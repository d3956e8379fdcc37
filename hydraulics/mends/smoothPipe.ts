/** Smooth pipe in place of corrugated hose, of the same bore. */
import type { Pipe } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";

export const smoothPipe: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const pipe = id === undefined ? undefined : section.parts.get(id);
  if (pipe?.kind !== "pipe") return;
  const { hazenWilliamsC: _c, roughness: _roughness, nominal: _nominal, ...bare } = pipe;
  const smooth: Pipe = { ...bare, material: "pvc" };
  yield { label: `Take smooth pipe for ${called(section, pipe.id)}`, section: withPart(section, smooth) };
};
