/** The equations of a solved network, put together anew from its links' flows and its nodes' heads: which of them
 * are not met, in words. Nothing here reads a link's own residual, slope or state: each law is a pair of
 * conditions on flow and heads ("flows, and then loses just so much; or is at rest, and then nothing drives it"). */
import { g } from "../../hydraulics/formulas/gravity.ts";
import { weirFlow, weirFlowSlope } from "../../hydraulics/formulas/weir.ts";
import { AirPointLink } from "../../hydraulics/solver/links/airPointLink.ts";
import { BedLink } from "../../hydraulics/solver/links/bedLink.ts";
import { FullLink } from "../../hydraulics/solver/links/fullLink.ts";
import { GravityLink } from "../../hydraulics/solver/links/gravityLink.ts";
import { type Link, outside, steep } from "../../hydraulics/solver/links/link.ts";
import { MouthLink } from "../../hydraulics/solver/links/mouthLink.ts";
import { PumpLink } from "../../hydraulics/solver/links/pumpLink.ts";
import { RimLink } from "../../hydraulics/solver/links/rimLink.ts";
import { SpillLink } from "../../hydraulics/solver/links/spillLink.ts";
import { SpillwayLink } from "../../hydraulics/solver/links/spillwayLink.ts";
import { arriving, type Steady, stretchesAt } from "../../hydraulics/solver/steady.ts";

/** design notes, section 11 */
export const balanceTolerance = 1e-9;
export const lossTolerance = 1e-6;

/** Worst imbalance of every node whose head was sought, where it is over 1e-9 m³/s and over 1e-6 of the flow there. */
export function unbalanced({ network, system }: Steady): string[] {
  const net = new Float64Array(network.nodes.length);
  const most = new Float64Array(network.nodes.length);
  for (const { i, j, Q } of network.links) {
    for (const [node, into] of [
      [i, -Q],
      [j, Q],
    ] as const) {
      if (node === outside) continue;
      net[node] = (net[node] as number) + into;
      most[node] = Math.max(most[node] as number, Math.abs(Q));
    }
  }
  return network.nodes.flatMap(({ part }, v) => {
    const left = Math.abs(net[v] as number);
    return system.given[v] || left <= Math.max(balanceTolerance, 1e-6 * (most[v] as number))
      ? []
      : [`node ${v} of ${part} is out by ${left} m³/s of ${most[v]}`];
  });
}

export function unmetLosses(state: Steady): string[] {
  const { network, system } = state;
  const head = (node: number) => (node === outside ? Number.NEGATIVE_INFINITY : (system.head[node] as number));
  const arrivingAt = new Map<Link, number>();
  for (const vent of network.vents.values()) {
    if (!vent.spill) continue;
    const around = stretchesAt(network, vent);
    arrivingAt.set(vent.spill, (arriving(around) / around.area) ** 2 / (2 * g));
  }
  for (const { link } of network.branchAir) {
    const upper = link.Q >= 0 ? link.i : link.j;
    arrivingAt.set(link, fastestInto(network.links, upper) ** 2 / (2 * g));
  }
  return network.links.flatMap((link, e) => {
    const left = miss(link, head(link.i), head(link.j), head, arrivingAt.get(link) ?? null);
    return left <= lossTolerance ? [] : [`link ${e} (${link.constructor.name}) of ${link.part} is out by ${left} m`];
  });
}

/** m³/s under which a way counts as shut: ten times what a shut valve leaves through under 1 km of head */
/** m/s of the fastest water that comes to a node by a pipe */
const fastestInto = (links: readonly Link[], node: number): number =>
  links.reduce((most, link) => {
    if (!(link instanceof FullLink)) return most;
    const into = link.j === node ? link.Q : link.i === node ? -link.Q : 0;
    return Math.max(most, into / link.stretch.area);
  }, 0);

const rest = 1e-9;
const over = (x: number): number => Math.max(0, x);
/** A law that is at rest: its flow has to be nothing, and the drive has to be within what it withstands. */
const atRest = (Q: number, ...drives: readonly number[]): number =>
  Math.abs(Q) <= rest ? Math.max(...drives.map(over)) : Number.POSITIVE_INFINITY;

/** m by which a law is not met */
function miss(link: Link, Hi: number, Hj: number, head: (node: number) => number, arrives: number | null): number {
  const { Q } = link;
  if (link instanceof FullLink) return missOfFull(link, Hi - Hj);
  if (link instanceof MouthLink) return missOfMouth(link, Hi, Hj);
  if (link instanceof GravityLink) return missOfGravity(link, Hi, Hj);
  if (link instanceof PumpLink) {
    const runs = Math.abs(Hi - Hj - link.law.loss(Q));
    return link.running && Q <= rest ? Math.min(runs, atRest(Q, Hi - Hj - link.law.loss(0))) : runs;
  }
  if (link instanceof BedLink) {
    let loss = 1e-5 * Q;
    for (const { from, to, linear, square } of link.layers)
      loss += over(Math.min(to, head(link.surface)) - from) * (linear + square * Math.abs(Q)) * Q;
    return Math.abs(Hi - Hj - loss);
  }
  if (link instanceof RimLink) return Math.abs(over(Hi - link.rim) - Q / steep);
  if (link instanceof SpillLink) {
    const above = Hi - (arrives ?? 0) - link.endLevel;
    return Q > rest ? Math.abs(above - link.passage.loss(Q)) : atRest(Q, above);
  }
  if (link instanceof SpillwayLink) {
    const { crestLevel, width, crest } = link.sill;
    const above = Hi - Math.max(crestLevel, Hj);
    const slope = weirFlowSlope(above, width, crest);
    const left = Math.abs(weirFlow(above, width, crest) - Q);
    return left <= rest ? 0 : left / slope;
  }
  if (link instanceof AirPointLink) {
    // Where a dry leg lets the air in, that leg may take some of the water: the whole of what arrives has its speed.
    const level = (flow: number) => link.tee + (arrives ?? link.velocityHead.loss(flow)) + 1e-5 * flow;
    const whole = Math.abs(Hi - Hj - 1e-5 * Q);
    if (Q > rest) return Math.min(Math.abs(Hi - Math.max(level(Q), Hj)), Hj > level(Q) - lossTolerance ? whole : 9);
    if (Q < -rest) return Math.min(Math.abs(Hj - Math.max(level(-Q), Hi)), Hi > level(-Q) - lossTolerance ? whole : 9);
    return Math.min(whole, atRest(Q, Hi - level(0), Hj - level(0)));
  }
  throw new Error(`no law for ${link.constructor.name}`);
}

function missOfFull({ Q, stretch }: FullLink, drop: number): number {
  const { friction, forward, backward, oneWay, openingHead, shut } = stretch;
  if (shut) return atRest(Q);
  const loss = friction.loss(Q) + (Q >= 0 ? forward : backward).loss(Q);
  if (oneWay === 0) return Math.abs(drop - loss);
  // Towards its own side it opens over the opening head, and never lets back.
  if (Q * oneWay > rest) return Math.abs(drop - loss - oneWay * openingHead);
  return atRest(Q, drop * oneWay - openingHead);
}

function missOfMouth({ Q, mouth, broken, limited, i }: MouthLink, Hi: number, Hj: number): number {
  const { axis, edge, taking, giving } = mouth;
  if (Q < -rest) return Math.abs(Hj - Math.max(axis, Hi) - giving.loss(-Q));
  const free = Hj - Math.max(axis, Hi);
  if (Q > rest) {
    if (i === outside || broken) return Number.POSITIVE_INFINITY;
    const taken = Math.abs(Hi - Hj - taking.loss(Q));
    // A line that would draw more than comes holds the level at its edge.
    const atEdge = limited ? Math.max(Math.abs(Hi - edge - Q / steep), over(Hj + taking.loss(Q) - Hi)) : 9;
    const covered = limited ? over(edge - Hi) : 0;
    return Math.min(Math.max(taken, covered), atEdge);
  }
  const covered = !broken && (Hi > edge + lossTolerance || !limited);
  return atRest(Q, free, covered ? Hi - Hj - taking.loss(rest) : 0);
}

function missOfGravity({ Q, forward, backward, i, j }: GravityLink, Hi: number, Hj: number): number {
  const needed = (law: NonNullable<GravityLink["forward"]>, flow: number, down: number) =>
    law.path.receives ? Math.max(law.free(flow), down + law.through(flow)) : law.free(flow);
  if (Q > rest) return forward ? Math.abs(Hi - needed(forward, Q, Hj)) : Number.POSITIVE_INFINITY;
  if (Q < -rest) return backward ? Math.abs(Hj - needed(backward, -Q, Hi)) : Number.POSITIVE_INFINITY;
  // At rest neither side stands over what the least flow needs.
  const drive = (law: GravityLink["forward"], up: number, down: number) => (law ? up - needed(law, rest, down) : 0);
  return atRest(Q, i === outside ? 0 : drive(forward, Hi, Hj), j === outside ? 0 : drive(backward, Hj, Hi));
}
