/** When something happened between two moments of a run, read off what is known at both. */
import type { BodyModel, Network } from "../network/network.ts";
import type { Link } from "../solver/links/link.ts";
import type { Moment } from "./engine.ts";

/** The moment at which a flow that fades has come down to a bound, s. Between moments 1/√Q is taken for a straight line
 * of the time, which it is where water runs out over a sill or an invert and leaves a film (Q ∝ 1/t²).
 * @param flow m³/s, over `bound` at `from` and at or under it at `to` */
export function fadedAt(from: Point, to: Point, bound: number): number {
  const [was, is, at] = [from.flow, Math.max(to.flow, 1e-30), bound].map((flow) => 1 / Math.sqrt(flow)) as [
    number,
    number,
    number,
  ];
  return from.time + ((to.time - from.time) * Math.min(1, (at - was) / (is - was)) || 0);
}

interface Point {
  readonly time: number;
  /** m³/s, not below 0 */
  readonly flow: number;
}

/** m³/s that a body gains at a moment from everything but its own rim */
export function gains(network: Network, model: BodyModel): (moment: Moment) => number {
  const nodes = new Set([model.surface, ...model.column.map(({ node }) => node)]);
  const sides = network.links.flatMap((link: Link, e) => {
    if (link === model.rim || nodes.has(link.i) === nodes.has(link.j)) return [];
    return [{ e, sign: nodes.has(link.j) ? 1 : -1 }];
  });
  return ({ flows }) => sides.reduce((sum, { e, sign }) => sum + sign * (flows[e] as number), 0);
}

/** s after the first of two moments `span` s apart at which a body has gained `wanted` m³, its gain going in a straight
 * line from `first` to `last` m³/s; the whole span where it never has */
export function gainedAfter(wanted: number, span: number, first: number, last: number): number {
  // wanted = first·s + (last − first)·s²/2span, by the root that keeps its digits where the gain is steady.
  const bend = (last - first) / (2 * span);
  const under = first * first + 4 * bend * wanted;
  const s = under < 0 ? Number.NaN : (2 * wanted) / (first + Math.sqrt(under));
  return s >= 0 && s <= span ? s : span;
}

/** The first moment from which a flow stays below a bound; null where it never does or never ran. */
export function firstBelow(count: number, flow: (k: number) => number, bound: number): number | null {
  let k = count - 1;
  while (k >= 0 && flow(k) < bound) k--;
  return k < 0 || k === count - 1 ? null : k + 1;
}
