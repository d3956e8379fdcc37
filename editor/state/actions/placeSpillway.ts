import type { Draft } from "immer";
import { type Body, drawnWidth, type Part, type Point, type Section } from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { bodiesOf } from "../inOrder.ts";
import { act } from "./act.ts";
import { bodyAt, idFor, nextRank } from "./newPart.ts";
import { even } from "./rounded.ts";

/** Cuts a spillway into the body under the place; it falls into the body beside it whose rim is lower, else onto the ground. */
export function placeSpillway(section: Section, at: Point): Changed {
  const body = bodyAt(section, at, 0.15);
  if (!body) return { ok: false, why: "A spillway is cut into a rim: drop it on a pond or a vessel." };
  const right = at[0] >= body.x + drawnWidth(body) / 2;
  const spillway: Part = {
    id: idFor(section, "spillway"),
    rank: nextRank(section),
    kind: "spillway",
    from: body.id,
    to: fallsInto(section, body, right)?.id ?? "ground",
    crestZ: even(
      Math.max(body.rimLevel - 0.05, (body.rimLevel + (body.kind === "pond" ? body.bedLevel : body.baseLevel)) / 2),
    ),
    width: 0.3,
    crest: "sharp",
  };
  return act(section, "Cut a spillway", (draft) => {
    draft.parts.set(spillway.id, spillway as Draft<Part>);
  });
}

function fallsInto(section: Section, from: Body, right: boolean): Body | undefined {
  const edge = right ? from.x + drawnWidth(from) : from.x;
  const gap = (body: Body) => (right ? body.x - edge : edge - (body.x + drawnWidth(body)));
  return bodiesOf(section)
    .filter(
      (body) =>
        body.id !== from.id && body.rimLevel < from.rimLevel && gap(body) > -drawnWidth(body) && gap(body) < 1.5,
    )
    .sort((a, b) => Math.abs(gap(a)) - Math.abs(gap(b)))[0];
}
