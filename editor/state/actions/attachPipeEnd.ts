import type { Draft } from "immer";
import { type PartId, type Pipe, type PipeEnd, type Point, pipeLine, type Section } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { leadsBack } from "./leadsBack.ts";
import { setPipeEnd, whyTooShort } from "./movePipeEnd.ts";
import { freshPipe, withPipe } from "./placePipe.ts";
import { round } from "./rounded.ts";
import { routeBetween } from "./routeBetween.ts";

/** Puts an end of a pipe into what was named, without a place that a pointer showed. A pipe that nobody has led or sized
 * yet becomes the one that would have been pulled there: over the rim, of a hose's bore where a pump fills it. */
export function attachPipeEnd(section: Section, id: PartId, which: "from" | "to", end: PipeEnd): Changed {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Only a pipe has ends to move." };
  if (!isAsLaid(section, pipe)) return setPipeEnd(section, id, which, end);
  const was = freshPipe(without(section, id), pipe.from, pipe.to);
  const put = { ...pipe, [which]: end };
  const loop = leadsBack(withPipe(section, put));
  if (loop) return { ok: false, why: loop };
  const now = freshPipe(without(section, id), put.from, put.to);
  const isUnsized = pipe.bore === was.bore && pipe.nominal === was.nominal && pipe.material === was.material;
  const next: Pipe = {
    ...put,
    ...(isUnsized ? { bore: now.bore, nominal: now.nominal, material: now.material } : {}),
    ...(pipe.label === was.label ? { label: now.label } : {}),
  };
  const route = laid(section, next);
  const routed = { ...next, route };
  const tooShort = whyTooShort(withPipe(section, routed), routed);
  if (tooShort) return tooShort;
  return act(section, `Move an end of ${partName(pipe)}`, (draft) => {
    const target: Draft<Pipe> = { ...next, route: route.map(([x, z]) => [x, z]) } as Draft<Pipe>;
    if (route.length === 0) delete target.route;
    draft.parts.set(id, target);
  });
}

/** Whether its line is the one that it was given as it was put down. One that goes straight between two parts was meant to. */
function isAsLaid(section: Section, pipe: Pipe): boolean {
  const { route = [], from, to } = pipe;
  if (route.length === 0) return "open" in from || "open" in to;
  return JSON.stringify(route) === JSON.stringify(laid(section, pipe));
}

function laid(section: Section, { route: _, ...bare }: Pipe): readonly Point[] {
  const line = pipeLine(withPipe(section, bare), bare);
  // A tee may lie anywhere on a slope.
  const place = (end: PipeEnd, [x, z]: Point): Point => ("pipe" in end ? [round(x), round(z)] : [x, z]);
  return routeBetween(
    section,
    bare.from,
    place(bare.from, line[0] as Point),
    bare.to,
    place(bare.to, line.at(-1) as Point),
  );
}

function without(section: Section, id: PartId): Section {
  const parts = new Map(section.parts);
  parts.delete(id);
  return { ...section, parts };
}
