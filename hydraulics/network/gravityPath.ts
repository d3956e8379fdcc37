/** A stretch of gravity pipe as the path its water takes, one way: see `capacity/gravityLaw.ts` for the law. */

import { type Floor, GravityLaw } from "../capacity/gravityLaw.ts";
import { openingHeadOf } from "../document/defaults.ts";
import { placeAt } from "../document/geometry.ts";
import type { PartId, Point } from "../document/section.ts";
import type { Loss } from "../elements/element.ts";
import { boreArea } from "../formulas/circle.ts";
import { entranceK, exitK } from "../formulas/fittingK.ts";
import { g } from "../formulas/gravity.ts";
import { bearsOn } from "./bearsOn.ts";
import type { Bears, PipeEndModel } from "./network.ts";
import { type LaidPipe, samePlace } from "./pipeModel.ts";

export interface Reach {
  readonly start: number;
  readonly end: number;
  /** the pipe's own end, not a tee of another pipe into it */
  readonly startIsEnd: boolean;
  readonly endIsEnd: boolean;
  /** another pipe ends there; where nothing but a vent does, the route goes on as if it were whole */
  readonly startIsTee: boolean;
  readonly endIsTee: boolean;
  /** another pipe of the same bore carries the line straight on there: so does the route */
  readonly startGoesOn: boolean;
  readonly endGoesOn: boolean;
}

/** null where water cannot go that way: a shut valve, a sound check valve, an end in air to draw from. */
export function gravityLaw(
  pipe: LaidPipe,
  reach: Reach,
  way: 1 | -1,
  perMetre: Loss,
  { checksOpen, kTimes, bottomOf }: { checksOpen: boolean; kTimes: number; bottomOf: (body: PartId) => number },
): GravityLaw | null {
  const inside = (at: number) => at >= reach.start - samePlace && at <= reach.end + samePlace;
  if (pipe.shutAt.some(inside)) return null;
  const checks = checksOpen ? [] : pipe.checks.filter(({ at }) => inside(at));
  if (way === -1 && checks.length > 0) return null;

  const atFrom: PipeEndModel | null = reach.startIsEnd ? pipe.from : null;
  const atTo: PipeEndModel | null = reach.endIsEnd ? pipe.to : null;
  const upper = way === 1 ? atFrom : atTo;
  const lower = way === 1 ? atTo : atFrom;
  if (upper?.kind === "air") return null;

  const bore = pipe.pipe.bore;
  const perK = 1 / (2 * g * boreArea(bore) ** 2);
  const hasExtra = reach.startIsEnd ? pipe.extra : 0;
  const whole = reach.end - reach.start + hasExtra;
  /** m of pipe between the mouth and a place */
  const lengthTo = (at: number) => (way === 1 ? at - reach.start + hasExtra : reach.end - at);
  const entrance = upper?.kind === "body" ? entranceK(upper.opening.mouth) : 0;
  const bears = bearsOn(pipe, reach);
  const kOf = (item: Bears) => (way === 1 ? item.kForward : item.kBackward);
  /** ΣK from the mouth up to a place; what lies there itself counts unless it is the place's own bend */
  const kTo = (at: number, withOwnBend: boolean): number => {
    let k = entrance;
    for (const item of bears) {
      const ahead = way * (item.at - at);
      const atPlace = Math.abs(item.at - at) < samePlace;
      if (atPlace ? item.what !== "bend" || withOwnBend : ahead < 0) k += kOf(item);
    }
    return k * kTimes;
  };

  const floors: Floor[] = [];
  const lowEnd = way === 1 ? reach.end : reach.start;
  const highEnd = way === 1 ? reach.start : reach.end;
  const invert = (at: number) => placeAt(pipe.line, at)[1] - bore / 2;
  const [upperGoesOn, lowerGoesOn] =
    way === 1 ? [reach.startGoesOn, reach.endGoesOn] : [reach.endGoesOn, reach.startGoesOn];
  // A tee, or a joint at which the line turns or changes its bore, counts as a vertex of the pipe it lies on, and as one
  // of the pipe that ends there: a narrow branch begins higher up in a wide main than the main's own invert. At the
  // upper end of this reach …
  const [upperTee, lowerTee] = way === 1 ? [reach.startIsTee, reach.endIsTee] : [reach.endIsTee, reach.startIsTee];
  if (upper === null ? upperTee : !upperGoesOn && (upper.kind === "tee" || upper.kind === "joint"))
    floors.push({ level: invert(highEnd), jet: false, length: 0, square: 0, what: "route" });
  for (const { at, place } of verticesOf(pipe.line)) {
    // Under a vent a vertex keeps its own floor, on the reach that bears its bend; under a tee it has the tee's.
    const isAtEnd = Math.abs(at - reach.end) <= samePlace;
    if (at <= reach.start + samePlace || at > reach.end + samePlace) continue;
    if (isAtEnd && (reach.endIsEnd || reach.endIsTee)) continue;
    floors.push({
      level: place[1] - bore / 2,
      jet: false,
      length: lengthTo(at),
      square: kTo(at, false) * perK,
      what: "route",
    });
  }
  // A mouth drawn under the bed takes nothing that is not there.
  if (upper?.kind === "body" && upper.opening.edge < bottomOf(upper.opening.body)) {
    floors.push({ level: bottomOf(upper.opening.body), jet: true, length: 0, square: 0, what: "route" });
  }
  // … and at its lower end.
  const allK = kTo(lowEnd, true);
  if (lower === null || lower.kind === "tee" || lower.kind === "joint") {
    if (lower === null ? lowerTee : !lowerGoesOn)
      floors.push({ level: invert(lowEnd), jet: false, length: whole, square: allK * perK, what: "route" });
  } else if (lower.kind !== "pump") {
    const jet = lower.kind === "air" ? lower.facing === "upright" : lower.opening.mouth !== "side";
    const level = lower.place[1] - (jet ? 0 : bore / 2);
    floors.push({ level, jet, length: whole, square: allK * perK, what: "outlet" });
  }
  return new GravityLaw({
    bore,
    mouth: upper?.kind === "body" ? { kind: upper.opening.mouth, level: upper.opening.level } : null,
    floors,
    length: whole,
    square: (allK + (lower?.kind === "body" ? exitK : 0)) * perK,
    upTo: (at) => ({ length: lengthTo(at), square: kTo(at, false) * perK }),
    openingHead: way === 1 ? checks.reduce((sum, { valve }) => sum + openingHeadOf(valve), 0) : 0,
    perMetre,
    receives: lower === null || lower.kind !== "air",
  });
}

/** The route's inner vertices with their places along the line. */
export function verticesOf(line: readonly Point[]): { at: number; place: Point }[] {
  const vertices: { at: number; place: Point }[] = [];
  let at = 0;
  for (let k = 1; k < line.length - 1; k++) {
    const a = line[k - 1] as Point;
    const b = line[k] as Point;
    at += Math.hypot(b[0] - a[0], b[1] - a[1]);
    vertices.push({ at, place: b });
  }
  return vertices;
}
