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

export function labelsInOrder(drawing: Drawing): readonly LabelRequest[] {
  const asked = drawing.parts.map((part) => ({
    rank: rankOf[part.kind],
    requests: drawingOfKind(part).labels(drawing, part),
  }));
  const ranked: { rank: number; request: LabelRequest }[] = [];
  for (const { rank, requests } of asked) {
    for (const [i, request] of requests.entries()) ranked.push({ rank: rank + i * 1.5, request });
  }
  return ranked.sort((a, b) => a.rank - b.rank).map(({ request }) => request);
}
