/** The equations of a network and Newton's method on them.
 *
 * Unknown: the head at every node and the flow in every link. For each node what enters equals what leaves
 * (or is stored); for each link its loss equation. Linear in the flows on one side and monotone on the other,
 * so the steady state is unique, and the step in heads comes from one M-matrix:
 *     Σ over links of (gi·δHi − gj·δHj) = −(imbalance with every link at its linearised flow)
 * (the gradient method of Todini and Pilati 1988, from memory, with one-way links added).
 *
 * Safeguards, in this order: the links keep their own signs where a law is S-shaped; from the eighth step on
 * the length of a step is chosen so that the convex content Σ∫loss dQ does not rise along it (its slope along
 * the step is Σ residual·δQ, so no content need be summed); when that does not settle, steps are halved; and
 * last, water is given time: every unknown level gets its storage and the state is followed with growing time
 * steps until it rests, which for a monotone network must end at the steady state.
 *
 * Convergence is judged by residuals alone. */
import type { PartId } from "../document/section.ts";
import { BedLink } from "./links/bedLink.ts";
import { type Link, outside } from "./links/link.ts";
import { minimumDegree } from "./ordering.ts";
import { entryOf, Factors, type Pattern } from "./sparse.ts";

/** What a node keeps of water: V(H), dV/dH; m³, m². */
export interface Store {
  volume(level: number): number;
  area(level: number): number;
}

export interface SystemNode {
  readonly part: PartId;
  readonly store: Store | null;
  /** a first guess */
  readonly head: number;
  /** no step goes further: a body's level stays between just under its bed and just over its rim */
  readonly least?: number;
  readonly most?: number;
}

export interface Solved {
  readonly converged: boolean;
  readonly iterations: number;
  /** m³/s and m, the worst */
  readonly balance: number;
  readonly loss: number;
  readonly parts: readonly PartId[];
}

/** design notes, section 11 */
const balanceTolerance = 1e-9;
const lossTolerance = 1e-6;
/** what Newton's method aims at, well inside what is promised */
const aimedBalance = 1e-12;
const aimedLoss = 1e-10;
/** m³/s that drips into every body whose level is sought: with nothing else entering, its level is then the
 * highest at which nothing leaves, and not just any level below that. A hundredth of the flow tolerance. */
const drip = 2e-11;
const pinned = 1e12;
const grounded = 1e-16;

interface Snapshot {
  readonly head: Float64Array;
  readonly links: readonly { readonly Q: number; readonly state: unknown }[];
}

export class System {
  readonly nodes: readonly SystemNode[];
  readonly links: readonly Link[];
  readonly head: Float64Array;
  /** 1: the head is given */
  readonly given: Uint8Array;
  /** m³ at the start of a time step, m³ a node */
  readonly base: Float64Array;
  /** s; 0 where nothing is stored and only what flows counts */
  timeStep = 0;
  /** set before each iteration: velocity heads of vents and the like */
  beforeIteration: () => void = () => {};
  private readonly pattern: Pattern;
  private readonly factors: Factors;
  private readonly right: Float64Array;
  private readonly through: Float64Array;
  private readonly beds: readonly BedLink[];
  private readonly step: Float64Array;
  factorisations = 0;
  private fresh: Snapshot = { head: new Float64Array(), links: [] };

  constructor(nodes: readonly SystemNode[], links: readonly Link[]) {
    this.nodes = nodes;
    this.links = links;
    const n = nodes.length;
    this.head = Float64Array.from(nodes, (node) => node.head);
    this.given = new Uint8Array(n);
    this.base = new Float64Array(n);
    const inside = links.filter((link) => link.i !== outside && link.j !== outside && link.i !== link.j);
    this.pattern = minimumDegree(
      n,
      inside.map((link) => link.i),
      inside.map((link) => link.j),
    );
    this.factors = new Factors(this.pattern);
    this.right = new Float64Array(n);
    this.through = new Float64Array(n);
    this.step = new Float64Array(links.length);
    for (const link of inside) {
      const a = this.pattern.place[link.i] as number;
      const b = this.pattern.place[link.j] as number;
      link.entry = entryOf(this.pattern, a, b);
      link.iFirst = a < b;
    }
    this.beds = links.filter((link) => link instanceof BedLink);
  }

  /** Heads from where they stand; see the head of this file for the order of the safeguards. */
  solve(): Solved {
    let spent = 0;
    if (this.timeStep === 0) this.fresh = this.snapshot();
    const plain = this.newton(40, 1);
    if (plain.converged) return plain;
    spent += plain.iterations;
    const careful = this.newton(120, 0.5);
    spent += careful.iterations;
    // In a time step the caller takes a shorter one; without storage time itself is the last resort.
    if (careful.converged || this.timeStep > 0) return { ...careful, iterations: spent };
    const patient = this.inTime();
    return { ...patient, iterations: spent + patient.iterations };
  }

  private snapshot(): Snapshot {
    return {
      head: this.head.slice(),
      links: this.links.map((link: Link & { state?: unknown }) => ({ Q: link.Q, state: link.state })),
    };
  }

  private restore(kept: Snapshot): void {
    this.head.set(kept.head);
    kept.links.forEach(({ Q, state }, e) => {
      const link = this.links[e] as Link & { state?: unknown };
      link.Q = Q;
      if (state !== undefined) link.state = state;
    });
  }

  private newton(most: number, length: number): Solved {
    // Volumes are rounded: over a short step their last digit is a flow of that size.
    const aim = this.timeStep > 0 ? aimedBalance * 50 : aimedBalance;
    let seen = this.linearise();
    let best = Number.POSITIVE_INFINITY;
    let since = 0;
    let iterations = 0;
    for (; iterations < most; iterations++) {
      if (seen.balance <= aim && seen.loss <= aimedLoss) break;
      // Rounding has the last word: inside what is promised, and no better for three steps.
      const measure = Math.max(seen.balance / balanceTolerance, seen.loss / lossTolerance);
      if (measure < best * 0.5) {
        best = measure;
        since = 0;
      } else since++;
      if (measure <= 1 && since >= 3) break;
      this.factor();
      this.advance(length, iterations >= 8);
      seen = this.linearise();
    }
    return { ...this.judge(seen), iterations };
  }

  /** Links at the present heads, and what is left of the equations. */
  private linearise(): { balance: number; loss: number; at: number; link: number } {
    const { links, head, through, nodes, given } = this;
    for (const bed of this.beds) bed.cutAt(head[bed.surface] as number);
    this.beforeIteration();
    through.fill(0);
    let loss = 0;
    let worstLink = -1;
    for (let e = 0; e < links.length; e++) {
      const link = links[e] as Link;
      const { i, j } = link;
      link.linearise(i < 0 ? 0 : (head[i] as number), j < 0 ? 0 : (head[j] as number));
      if (i >= 0) through[i] = (through[i] as number) - link.Q;
      if (j >= 0) through[j] = (through[j] as number) + link.Q;
      const left = Math.abs(link.residual);
      if (left > loss || Number.isNaN(left)) {
        loss = left;
        worstLink = e;
      }
    }
    let balance = 0;
    let at = -1;
    for (let v = 0; v < nodes.length; v++) {
      if (given[v]) continue;
      const left = Math.abs((through[v] as number) - this.storing(v));
      if (left > balance || Number.isNaN(left)) {
        balance = left;
        at = v;
      }
    }
    return { balance, loss, at, link: worstLink };
  }

  /** m³/s going into a node's store over this time step; without one, less what drips in. */
  private storing(v: number): number {
    const store = (this.nodes[v] as SystemNode).store;
    if (!store) return 0;
    return this.timeStep > 0
      ? (store.volume(this.head[v] as number) - (this.base[v] as number)) / this.timeStep
      : -drip;
  }

  private factor(): void {
    const { factors, pattern, links, right, nodes, given, head, timeStep } = this;
    factors.clear();
    right.fill(0);
    const { lower, upper, excess } = factors;
    const { place } = pattern;
    for (const link of links) {
      const { i, j, q, gi, gj, entry } = link;
      if (i >= 0) right[place[i] as number] = (right[place[i] as number] as number) - q;
      if (j >= 0) right[place[j] as number] = (right[place[j] as number] as number) + q;
      if (entry >= 0) {
        // a(j, i) = −gi and a(i, j) = −gj
        const ofEarlier = link.iFirst ? gi : gj;
        const ofLater = link.iFirst ? gj : gi;
        lower[entry] = (lower[entry] as number) + ofEarlier;
        upper[entry] = (upper[entry] as number) + ofLater;
      } else if (i !== j) {
        if (i >= 0) excess[place[i] as number] = (excess[place[i] as number] as number) + gi;
        if (j >= 0) excess[place[j] as number] = (excess[place[j] as number] as number) + gj;
      }
    }
    for (let v = 0; v < nodes.length; v++) {
      const p = place[v] as number;
      const store = (nodes[v] as SystemNode).store;
      let out = grounded;
      if (given[v]) {
        out = pinned;
        right[p] = 0;
      } else if (store) {
        if (timeStep > 0) out += store.area(head[v] as number) / timeStep;
        right[p] = (right[p] as number) - this.storing(v);
      }
      excess[p] = (excess[p] as number) + out;
    }
    factors.factor();
    factors.solve(right);
    this.factorisations++;
  }

  /** One step of Newton's method, `length` of it, shorter where the content would rise. */
  private advance(length: number, guarded: boolean): void {
    const { links, head, right, pattern, given, nodes, step } = this;
    const { place } = pattern;
    for (let v = 0; v < nodes.length; v++) {
      if (given[v]) continue;
      const { least, most } = nodes[v] as SystemNode;
      const from = head[v] as number;
      const to = from + (right[place[v] as number] as number);
      right[place[v] as number] = Math.min(most ?? 1e4, Math.max(least ?? -1e4, to)) - from;
    }
    for (let e = 0; e < links.length; e++) {
      const link = links[e] as Link;
      const di = link.i < 0 ? 0 : (right[place[link.i] as number] as number);
      const dj = link.j < 0 ? 0 : (right[place[link.j] as number] as number);
      step[e] = link.q + link.gi * di - link.gj * dj - link.Q;
    }
    const t = length * (guarded && !this.hangsOnOneHead() ? this.contentStep() : 1);
    for (let v = 0; v < nodes.length; v++) {
      if (given[v]) continue;
      head[v] = (head[v] as number) + t * (right[place[v] as number] as number);
    }
    for (let e = 0; e < links.length; e++) {
      const link = links[e] as Link;
      const to = link.Q + t * (step[e] as number);
      link.accept(
        Math.min(link.most, Math.max(-link.most, to)),
        link.i < 0 ? 0 : (head[link.i] as number),
        link.j < 0 ? 0 : (head[link.j] as number),
      );
    }
  }

  /** Whether water falls freely anywhere: the content is then not the whole story and does not guard the step. */
  private hangsOnOneHead(): boolean {
    for (const { i, j, gi, gj } of this.links) if (i >= 0 && j >= 0 && gi !== gj) return true;
    return false;
  }

  /** How far to go so that the content's slope along the step stays below zero: 1 for a whole step. */
  private contentStep(): number {
    const { links, step, head, right, pattern } = this;
    const slopeAt = (t: number): number => {
      let slope = 0;
      for (let e = 0; e < links.length; e++) {
        const link = links[e] as Link;
        const dQ = step[e] as number;
        if (dQ === 0) continue;
        const loss = link.lossNow(link.Q + t * dQ);
        if (loss === null) continue;
        const Hi = link.i < 0 ? 0 : (head[link.i] as number) + t * (right[pattern.place[link.i] as number] as number);
        const Hj = link.j < 0 ? 0 : (head[link.j] as number) + t * (right[pattern.place[link.j] as number] as number);
        slope += (loss - (Hi - Hj)) * dQ;
      }
      return slope;
    };
    const atStart = slopeAt(0);
    if (!(atStart < 0) || slopeAt(1) <= 0.5 * Math.abs(atStart)) return 1;
    let low = 0;
    let high = 1;
    for (let k = 0; k < 12; k++) {
      const middle = (low + high) / 2;
      if (slopeAt(middle) > 0) high = middle;
      else low = middle;
    }
    return Math.max(high, 1e-3);
  }

  /** Follows the unknown levels in time, with steps that grow, until the state rests. */
  private inTime(): Solved {
    let spent = 0;
    // From where everything began, not from wherever Newton's method lost its way.
    this.restore(this.fresh);
    let good = this.fresh;
    let dt = 1;
    for (let k = 0; k < 60 && dt < 1e10 && dt > 1e-4; k++) {
      this.timeStep = dt;
      for (let v = 0; v < this.nodes.length; v++)
        this.base[v] = this.nodes[v]?.store?.volume(this.head[v] as number) ?? 0;
      let step = this.newton(30, 1);
      if (!step.converged) {
        this.restore(good);
        step = this.newton(80, 0.4);
      }
      spent += step.iterations;
      if (step.converged) good = this.snapshot();
      else this.restore(good);
      dt *= step.converged ? 4 : 0.2;
    }
    this.timeStep = 0;
    let last = this.newton(40, 1);
    if (!last.converged) {
      this.restore(good);
      last = this.newton(80, 0.5);
    }
    if (!last.converged) {
      this.restore(good);
      last = this.newton(250, 0.2);
    }
    return { ...last, iterations: spent + last.iterations };
  }

  private judge(seen: { balance: number; loss: number; at: number; link: number }): Omit<Solved, "iterations"> {
    let flow = 0;
    if (seen.at >= 0)
      for (const link of this.links)
        if (link.i === seen.at || link.j === seen.at) flow = Math.max(flow, Math.abs(link.Q));
    const converged = seen.balance <= Math.max(balanceTolerance, 1e-6 * flow) && seen.loss <= lossTolerance;
    const parts = new Set<PartId>();
    if (!converged) {
      if (seen.at >= 0) parts.add((this.nodes[seen.at] as SystemNode).part);
      if (seen.link >= 0) parts.add((this.links[seen.link] as Link).part);
    }
    return { converged, balance: seen.balance, loss: seen.loss, parts: [...parts] };
  }
}
