import { lineLength, pipeLine, placeAt } from "../../hydraulics/document/geometry.ts";
import type { Part, PartId, Pipe, PipeEnd, Point, Section } from "../../hydraulics/document/section.ts";

const idOf = (id: string): PartId => id as PartId;

/** The same drawing with a pipe in two pieces, the second joined to the open end of the first. What stands past the
 * place goes over to the second; fittings and extra length, which have no place, stay at the first. */
export function inTwo(drawing: Section, id: string, at: number, drawnBackwards = false): Section {
  const whole = drawing.parts.get(idOf(id)) as Pipe;
  const line = pipeLine(drawing, whole);
  const along = (k: number) => lineLength(line.slice(0, k + 1));
  const inner = (keep: (place: number) => boolean): Point[] =>
    line.slice(1, -1).filter((_, k) => keep(along(k + 1))) as Point[];
  const [x, z] = placeAt(line, at);
  const open: PipeEnd = { open: true, x, z };
  // On the way of the first piece, or that of the second: each is drawn in the direction of the whole.
  const moved = <P extends { pipe: PartId; at: number }>(on: P): P =>
    on.pipe === whole.id && on.at > at ? { ...on, pipe: idOf("rest"), at: on.at - at } : on;
  const movedEnd = (end: PipeEnd): PipeEnd => ("pipe" in end ? moved(end) : end);
  const parts = new Map<PartId, Part>(
    [...drawing.parts].map(([key, part]) => {
      if (part.kind === "pipe") return [key, { ...part, from: movedEnd(part.from), to: movedEnd(part.to) }];
      return [key, "on" in part ? ({ ...part, on: moved(part.on) } as Part) : part];
    }),
  );
  const { fittings: _, extraLength: __, ...plain } = whole;
  if (drawnBackwards) {
    // The first piece joins the second, which is drawn from its open end.
    parts.set(whole.id, { ...whole, to: { pipe: idOf("rest"), at: 0 }, route: inner((place) => place < at - 1e-9) });
    parts.set(idOf("rest"), { ...plain, id: idOf("rest"), from: open, route: inner((place) => place > at + 1e-9) });
  } else {
    parts.set(whole.id, { ...whole, to: open, route: inner((place) => place < at - 1e-9) });
    const from = { pipe: whole.id, at };
    parts.set(idOf("rest"), { ...plain, id: idOf("rest"), from, route: inner((place) => place > at + 1e-9) });
  }
  return { ...drawing, parts };
}
