/** A running pump: what it lifts at a flow.
 *     two or more points (Q, H): monotone piecewise cubic through them (monotoneCubic.ts), and the first and last
 *     chord carried on outside them
 *     stand-in, two figures only: H = Hmax·(1 − (Q/Qmax)²) · straight line: H = Hmax·(1 − Q/Qmax)
 *     at speed n: Q·n, H·n²        Q m³/s · H m · n share of the rated speed
 * Holds between the points; below the first and past the last the report says so. Affinity holds for small changes
 * of speed; it keeps the efficiency, which falls in truth.
 * Source: the maker's curve. Stand-in from memory; affinity laws in published/pump.test.ts.
 * Ours: below Q = 0 the stand-in's parabola goes on upwards, so that the head falls everywhere (a running pump
 * passes nothing backwards: the solver shuts it).
 * Needs heads that fall as flows rise (the reader keeps them), speed > 0 (a pump at rest is another element). */
import { must } from "../must.ts";
import type { Element } from "./element.ts";
import { monotoneCubic } from "./monotoneCubic.ts";
import { squareLaw } from "./squareLaw.ts";

export type CurvePoint = readonly [flow: number, head: number];

/** Head, its derivative (below 0) and its integral from 0. */
export interface PumpHead {
  head(Q: number): number;
  slope(Q: number): number;
  content(Q: number): number;
}

/** By the maker's points. */
export function pumpHead(curve: readonly CurvePoint[], speed = 1): PumpHead {
  must(curve.length >= 2 && speed > 0, "a running pump has two points and a speed");
  const cubic = monotoneCubic(
    curve.map(([flow]) => flow * speed),
    curve.map(([, head]) => head * speed * speed),
  );
  return { head: cubic.value, slope: cubic.slope, content: cubic.integral };
}

/** The stand-in for a maker who states only the greatest flow and the greatest head. */
export function standInHead(maxFlow: number, maxHead: number, speed = 1): PumpHead {
  must(maxFlow > 0 && maxHead > 0 && speed > 0, "a stand-in curve has a greatest flow and head");
  const shutOff = maxHead * speed * speed;
  const fall = squareLaw(maxHead / (maxFlow * maxFlow));
  return {
    head: (Q) => shutOff - fall.loss(Q),
    slope: (Q) => -fall.slope(Q),
    content: (Q) => shutOff * Q - fall.content(Q),
  };
}

/** The other reading of the same two figures. */
export const straightLineHead = (maxFlow: number, maxHead: number, speed = 1): PumpHead =>
  pumpHead(
    [
      [0, maxHead],
      [maxFlow, 0],
    ],
    speed,
  );

export type PumpCurve =
  | { readonly curve: readonly CurvePoint[]; readonly speed?: number }
  | { readonly maxFlow: number; readonly maxHead: number; readonly straight?: boolean; readonly speed?: number };

export function headOf(p: PumpCurve): PumpHead {
  if ("curve" in p) return pumpHead(p.curve, p.speed);
  return p.straight ? straightLineHead(p.maxFlow, p.maxHead, p.speed) : standInHead(p.maxFlow, p.maxHead, p.speed);
}

/** As an element, its loss is −H(Q). */
export const pump: Element<PumpCurve> = {
  source: {
    title: "Pump curve through the maker's points",
    where: "design notes, section 4",
    checkedIn: "published/pump.test.ts",
  },
  build(p) {
    const { head, slope, content } = headOf(p);
    return { loss: (Q) => -head(Q), slope: (Q) => -slope(Q), content: (Q) => -content(Q) };
  },
};
