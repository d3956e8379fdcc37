import type { Draft } from "immer";
import { type Part, type PartId, pipeLine, placeAt, type Section } from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { idFor, named, nextRank } from "./newPart.ts";
import { round } from "./rounded.ts";

const labels = { valve: "Put in a valve", checkValve: "Put in a check valve", vent: "Put on a breather" };

const words = { valve: "Valve", checkValve: "Check valve", vent: "Breather" };

/** Puts a valve, a check valve or a breather on a pipe, `at` metres along it. */
export function placeDevice(
  section: Section,
  kind: "valve" | "checkValve" | "vent",
  pipeId: PartId,
  at: number,
): Changed {
  const pipe = section.parts.get(pipeId);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Valves and breathers sit on a pipe: drop it on one." };
  const common = {
    id: idFor(section, kind),
    label: named(section, kind, words[kind]),
    rank: nextRank(section),
    on: { pipe: pipeId, at: round(at) },
  };
  const level = placeAt(pipeLine(section, pipe), at)[1];
  const part: Part =
    kind === "valve"
      ? { ...common, kind, type: "ball", open: 1, role: "throttle" }
      : kind === "checkValve"
        ? { ...common, kind }
        : // Long enough a riser to stay above what it may spit, a bore that is ample at a few cubic metres an hour.
          { ...common, kind, bore: 0.013, open: 1, openEndZ: round(level + 0.2) };
  return act(section, labels[kind], (draft) => {
    draft.parts.set(part.id, part as Draft<Part>);
  });
}
