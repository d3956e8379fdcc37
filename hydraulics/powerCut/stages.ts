/** A step of bodies' volumes in time, and what it does: Alexander's two-stage diagonally implicit Runge-Kutta method,
 * γ = 1 − 1/√2 (SIAM J. Numer. Anal. 14 (1977); from memory): second order and L-stable. Each stage is the network's
 * own equations with the bodies' storage added, solved by the same Newton method. The second stage stands at the end of
 * the step, so that flows and rates after it are those of its levels. */
import type { PartId } from "../document/section.ts";
import { must } from "../must.ts";
import type { Network } from "../network/network.ts";
import { type Link, outside } from "../solver/links/link.ts";
import type { Store, System } from "../solver/system.ts";

const gamma = 1 - Math.SQRT1_2;
/** s: where a step so short does not settle, shortening it helps no more, and the solver is asked for patience */
const patientUnder = 0.01;

export class Stages {
  /** m³ by body */
  readonly volumes: Float64Array;
  /** m³ through each link since the start, from i to j */
  readonly through: Float64Array;
  /** m³ over the ground since the start */
  lost = 0;
  /** where the last step did not converge */
  failedAt: readonly PartId[] | null = null;
  private readonly system: System;
  private readonly links: readonly Link[];
  private readonly surfaces: readonly number[];
  private readonly stores: readonly Store[];
  private readonly toGround: readonly Link[];
  private readonly rates1: Float64Array;
  private readonly rates2: Float64Array;
  private readonly base2: Float64Array;
  private readonly flows1: Float64Array;
  private ground1 = 0;
  private ground2 = 0;

  constructor(network: Network, system: System) {
    this.system = system;
    this.links = network.links;
    this.surfaces = [...network.bodies.values()].map(({ surface }) => surface);
    this.stores = this.surfaces.map((surface) => {
      const store = system.nodes[surface]?.store;
      must(store, "a body keeps its water in a store");
      return store;
    });
    this.toGround = network.links.filter((link) => link.j === outside || link.i === outside);
    const count = this.surfaces.length;
    this.volumes = Float64Array.from(this.stores, (_, b) => this.volumeNow(b));
    this.rates1 = new Float64Array(count);
    this.rates2 = new Float64Array(count);
    this.base2 = new Float64Array(count);
    this.through = new Float64Array(network.links.length);
    this.flows1 = new Float64Array(network.links.length);
  }

  /** A whole step of `h` seconds from where the system stands; levels afterwards in `system.head`. False, and
   * `failedAt` says where, if it does not converge. */
  step(h: number): boolean {
    const { volumes, base2, rates1, rates2, flows1, links } = this;
    if (!this.stage(volumes, gamma * h)) return false;
    this.ground1 = this.groundFlow();
    for (let e = 0; e < flows1.length; e++) flows1[e] = (links[e] as Link).Q;
    for (let b = 0; b < volumes.length; b++) {
      const held = volumes[b] as number;
      rates1[b] = (this.volumeNow(b) - held) / (gamma * h);
      base2[b] = held + (1 - gamma) * h * (rates1[b] as number);
    }
    if (!this.stage(base2, gamma * h)) return false;
    this.ground2 = this.groundFlow();
    for (let b = 0; b < volumes.length; b++) rates2[b] = (this.volumeNow(b) - (base2[b] as number)) / (gamma * h);
    return true;
  }

  /** Takes over what the last step of `h` seconds moved. */
  take(h: number): void {
    const { volumes, rates1, rates2, through, flows1, links } = this;
    for (let b = 0; b < volumes.length; b++)
      volumes[b] = (volumes[b] as number) + h * ((1 - gamma) * (rates1[b] as number) + gamma * (rates2[b] as number));
    this.lost += h * ((1 - gamma) * this.ground1 + gamma * this.ground2);
    for (let e = 0; e < through.length; e++)
      through[e] = (through[e] as number) + h * ((1 - gamma) * (flows1[e] as number) + gamma * (links[e] as Link).Q);
  }

  /** m: by how much the levels of the last step would differ by a method of first order, a bound on their error */
  error(h: number): number {
    let error = 0;
    for (let b = 0; b < this.rates2.length; b++)
      error = Math.max(
        error,
        (Math.abs((this.rates2[b] as number) - (this.rates1[b] as number)) * gamma * h) / this.areaNow(b),
      );
    return error;
  }

  /** m/s: how fast the level of the body at place `b` moves at the end of the last step */
  levelRate(b: number): number {
    return Math.abs(this.rates2[b] as number) / this.areaNow(b);
  }

  /** m³/s onto the ground at the end of the last step */
  spilling(): number {
    return this.ground2;
  }

  water(): number {
    return this.volumes.reduce((sum, volume) => sum + volume, 0);
  }

  /** One stage: storage over `dt` from `base`. */
  private stage(base: Float64Array, dt: number): boolean {
    const { system, surfaces } = this;
    system.timeStep = dt;
    for (let b = 0; b < surfaces.length; b++) system.base[surfaces[b] as number] = base[b] as number;
    const solved = system.solve(dt <= patientUnder);
    if (!solved.converged) this.failedAt = solved.parts;
    return solved.converged;
  }

  private volumeNow(b: number): number {
    return (this.stores[b] as Store).volume(this.system.head[this.surfaces[b] as number] as number);
  }

  private areaNow(b: number): number {
    return (this.stores[b] as Store).area(this.system.head[this.surfaces[b] as number] as number);
  }

  private groundFlow(): number {
    let flow = 0;
    for (const link of this.toGround) {
      if (link.j === outside && link.Q > 0) flow += link.Q;
      if (link.i === outside && link.Q < 0) flow -= link.Q;
    }
    return flow;
  }
}
