/** How much of each flow that a result reports a step takes away. Where a sheet or a line runs out, its flow fades
 * through decades while the levels hardly move: the error of the levels would let steps grow past the moment at which
 * it has stopped, and past the moment of rest. So no step takes more than a share of it. */
import type { Network } from "../network/network.ts";
import { AirPointLink } from "../solver/links/airPointLink.ts";
import { GravityLink } from "../solver/links/gravityLink.ts";
import type { Link } from "../solver/links/link.ts";
import { RimLink } from "../solver/links/rimLink.ts";
import { SpillwayLink } from "../solver/links/spillwayLink.ts";
import type { Stages } from "./stages.ts";

/** m³/s under which a way counts as stopped: 0.4 L/h */
export const stopped = 1e-7;

/** m³/s under which a return or a sheet that ran at `start` has run out */
export const runOut = (start: number): number => Math.max(stopped, 0.002 * Math.abs(start));

/** m/s: 0.1 mm an hour */
const restRate = 1e-4 / 3600;
/** m³/s to the ground */
const restLoss = 1e-8;

/** 1 where a run comes to rest, above it while water moves (design notes, section 8) */
export function unrest(stages: Stages): number {
  let most = stages.spilling() / restLoss;
  for (let b = 0; b < stages.volumes.length; b++) most = Math.max(most, stages.levelRate(b) / restRate);
  return most;
}

export class Pace {
  private readonly stages: Stages;
  private readonly links: readonly Link[];
  private readonly least: Float64Array;
  private readonly was: Float64Array;
  private readonly rateWas: Float64Array;
  private spillingWas = 0;
  unrestWas = 0;

  /** As the flows stand at the start. */
  constructor(network: Network, stages: Stages) {
    this.stages = stages;
    const full = [...network.pipes.values()].filter(({ runs }) => runs === "full");
    // Past a tee another flow goes on to the ends.
    const heads = new Set<Link | null | undefined>(
      full.flatMap(({ stretches, mouthFrom, mouthTo }) => [
        stretches[0]?.link,
        ...(stretches.length > 1 ? [mouthFrom, mouthTo] : []),
      ]),
    );
    this.links = network.links.filter(
      (link) =>
        heads.has(link) ||
        link instanceof GravityLink ||
        link instanceof SpillwayLink ||
        link instanceof RimLink ||
        link instanceof AirPointLink,
    );
    this.least = Float64Array.from(this.links, (link) =>
      link instanceof GravityLink || link instanceof SpillwayLink ? runOut(link.Q) : stopped,
    );
    this.was = new Float64Array(this.links.length);
    this.rateWas = new Float64Array(stages.volumes.length);
    this.keep();
  }

  /** The flows as they are now are those that the next step starts from. */
  keep(): void {
    for (let e = 0; e < this.was.length; e++) this.was[e] = Math.abs((this.links[e] as Link).Q);
    for (let b = 0; b < this.rateWas.length; b++) this.rateWas[b] = this.stages.levelRate(b);
    this.spillingWas = this.stages.spilling();
    this.unrestWas = unrest(this.stages);
  }

  /** ln of the greatest share by which a flow, what goes to the ground or the rate of a level has shrunk since. Under
   * what counts as stopped, and as rest, nothing is looked at. */
  faded(): number {
    const { stages, links, least, was, rateWas } = this;
    let most = shrunk(this.spillingWas, stages.spilling(), restLoss);
    for (let b = 0; b < rateWas.length; b++)
      most = Math.max(most, shrunk(rateWas[b] as number, stages.levelRate(b), restRate));
    for (let e = 0; e < was.length; e++)
      most = Math.max(most, shrunk(was[e] as number, Math.abs((links[e] as Link).Q), least[e] as number));
    return Math.log(most);
  }

  get wasQuiet(): boolean {
    return this.unrestWas <= 1;
  }
}

const shrunk = (was: number, is: number, least: number): number => (was > least ? was / Math.max(least, is) : 1);
