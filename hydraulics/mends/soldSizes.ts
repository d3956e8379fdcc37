/** Bores that can be bought. */
import { pipeMaterial } from "../document/defaults.ts";
import type { Pipe } from "../document/section.ts";
import { type PipeSize, seriesOf } from "../formulas/sizes.ts";

/** m apart from which two bores are two sizes */
const apart = 2e-4;

/** The sizes over a pipe's bore, smallest first: of its own series where its bore is one of a series, else of all
 * series of its material. */
export function largerSizes(pipe: Pipe): readonly PipeSize[] {
  return distinct(sizesOf(pipe).filter(({ bore }) => bore > pipe.bore + apart));
}

/** The next smaller ones, largest first. */
export function smallerSizes(pipe: Pipe): readonly PipeSize[] {
  return [...distinct(sizesOf(pipe).filter(({ bore }) => bore < pipe.bore - apart))].reverse();
}

/** m within which a bore is that of a series */
const itsOwn = 3e-4;

function sizesOf(pipe: Pipe): readonly PipeSize[] {
  const all = seriesOf(pipeMaterial(pipe));
  const own = all.filter(({ sizes }) => sizes.some(({ bore }) => Math.abs(bore - pipe.bore) < itsOwn));
  return (own.length > 0 ? own.slice(0, 1) : all)
    .flatMap(({ name, sizes }) => sizes.map((size) => ({ name: `${size.name}, ${name}`, bore: size.bore })))
    .sort((a, b) => a.bore - b.bore);
}

const distinct = (sizes: readonly PipeSize[]): readonly PipeSize[] =>
  sizes.filter((size, k) => k === 0 || size.bore - (sizes[k - 1] as PipeSize).bore > apart);

/** m. Tube for a vent: thin air line from memory, then hose as sold. */
const ventBores = [0.004, 0.006, 0.008, 0.01, 0.0125, 0.016, 0.019, 0.025, 0.0315, 0.038, 0.05, 0.063, 0.075, 0.1];

export const ventBoreFrom = (least: number): number | null => ventBores.find((bore) => bore >= least) ?? null;
