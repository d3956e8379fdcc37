/** In which order labels look for their places. */
import type { Part } from "../../hydraulics/index.ts";
import type { Drawing } from "./drawing.ts";
import type { LabelRequest } from "./labelRequest.ts";
import { drawingOfKind } from "./parts.ts";

/** What decides is served first: notes stand where they were put, then levels, flows, then names. */
const rankOf: Readonly<Record<Part["kind"], number>> = {
  note: 0,
  vessel: 1,
  pond: 2,
  vent: 3,
  pump: 4,
  checkValve: 4,
  valve: 4,
  spillway: 4,
  pipe: 5,
};

/** A narrow sheet has no room for all: there what the bodies are called comes right behind the water in them. Before
 * the notes it would push some of these off the sheet; rims, bores and sizes are in the slips and tables too. */
const bodyNameIfNarrow = 2.2;

const rankIn = ({ layout }: Drawing, { kind }: Part, { isBodyName }: LabelRequest, i: number): number =>
  isBodyName && layout.narrow ? bodyNameIfNarrow : rankOf[kind] + i * 1.5;

export function labelsInOrder(drawing: Drawing): readonly LabelRequest[] {
  const ranked = drawing.parts.flatMap((part) =>
    drawingOfKind(part)
      .labels(drawing, part)
      .map((request, i) => ({ rank: rankIn(drawing, part, request, i), request })),
  );
  return ranked.sort((a, b) => a.rank - b.rank).map(({ request }) => request);
}
