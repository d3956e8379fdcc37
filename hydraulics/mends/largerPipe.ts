/** The pipes of a finding in the next larger size that is sold, until one mends it. */
import type { Part, PartId, Pipe, Section } from "../document/section.ts";
import { returnsOf } from "../faults/returnsOf.ts";
import { boreWords, called } from "../findings/words.ts";
import type { PipeSize } from "../formulas/sizes.ts";
import type { Remedy } from "./remedy.ts";
import { largerSizes, smallerSizes } from "./soldSizes.ts";

const steps = 4;

export const largerPipe: Remedy = (trouble) => inSizes(trouble.section, trouble.finding.parts, largerSizes);
export const smallerPipe: Remedy = (trouble) => inSizes(trouble.section, trouble.finding.parts, smallerSizes);

/** The returns of the vessel that a finding names. */
export const largerReturns: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const returns = id === undefined ? [] : returnsOf(assessed.state).filter(({ vessel }) => vessel === id);
  yield* inSizes(
    section,
    returns.map(({ pipe }) => pipe.pipe.id),
    largerSizes,
  );
};

function* inSizes(section: Section, ids: readonly PartId[], sizesOf: (pipe: Pipe) => readonly PipeSize[]) {
  const pipes = ids.flatMap((id) => {
    const part = section.parts.get(id);
    return part?.kind === "pipe" ? [part] : [];
  });
  if (pipes.length === 0) return;
  for (let step = 0; step < steps; step++) {
    const sized = pipes.flatMap((pipe) => {
      const size = sizesOf(pipe)[step];
      return size ? [{ pipe, size }] : [];
    });
    if (sized.length < pipes.length) return;
    const parts = new Map<PartId, Part>(section.parts);
    for (const { pipe, size } of sized) parts.set(pipe.id, { ...pipe, bore: size.bore, nominal: size.name });
    const label = sized
      .map(({ pipe, size }) => `Make ${called(section, pipe.id)} ${boreWords(size.bore)} wide (${size.name})`)
      .join("; ");
    yield { label, section: { ...section, parts } };
  }
}
