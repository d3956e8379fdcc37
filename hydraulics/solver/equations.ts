/** The equations of a network at an iterate.
 *
 * Unknown: the head at every node and the flow in every link. For each node what enters equals what leaves
 * (or is stored); for each link its loss equation. Linear in the flows on one side and monotone on the other,
 * so the steady state is unique.
 *
 * While they are being solved flows stand side by side in `flow`; links get theirs back when the loop is done. */
import type { PartId } from "../document/section.ts";
import { FullLines, type Iterate } from "./fullLines.ts";
import { BedLink } from "./links/bedLink.ts";
import { BranchLink, type Link, leak } from "./links/link.ts";

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

/** What is left of the equations at an iterate. */
export interface Left {
  /** m³/s and m, the worst */
  balance: number;
  loss: number;
  /** node and link of these; -1 where nothing is left */
  at: number;
  link: number;
}

export interface Judged {
  readonly converged: boolean;
  /** m³/s and m, the worst */
  readonly balance: number;
  readonly loss: number;
  readonly parts: readonly PartId[];
}

/** m³/s and m; design notes, section 11 */
export const balanceTolerance = 1e-9;
export const lossTolerance = 1e-6;
/** what rounding leaves of a number that a few sums went into */
const lastDigits = 2 ** -50;
/** m³/s that drips into every body whose level is sought: with nothing else entering, its level is then the
 * highest at which nothing leaves, and not just any level below that. A fiftieth of the flow tolerance. */
export const drip = 2e-11;
/** m² of a junction while the last resort gives it water to keep: about a stand pipe */
const junction = 1e-3;
/** what leads out of a node whose head is given, and of every other, m²/s */
const pinned = 1e12;
const grounded = 1e-16;

const nothing = (): void => {};

export class Equations implements Iterate {
  readonly nodes: readonly SystemNode[];
  readonly links: readonly Link[];
  readonly head: Float64Array;
  /** 1: the head is given */
  readonly given: Uint8Array;
  /** m³ at the start of a time step, m³ a node */
  readonly base: Float64Array;
  /** s; 0 where nothing is stored and only what flows counts */
  timeStep = 0;
  /** s; over 0 in the last resort alone, where each junction keeps water as well */
  junctionStep = 0;
  /** set before each iteration: velocity heads of vents and the like */
  beforeIteration: () => void = nothing;
  /** by link: its flow, and its law linearised there */
  readonly flow: Float64Array;
  readonly q: Float64Array;
  readonly gi: Float64Array;
  readonly gj: Float64Array;
  /** whether water falls freely nowhere: each conductance then counts the same both ways */
  symmetric = false;
  /** whether no flow hangs on one level alone. Over a rim or at an edge a hair of level is a flow that can be seen, so
   * that the flow of the last step has to be the law's own and not one by an older matrix. */
  twoSided = false;
  readonly through: Float64Array;
  readonly left: Left = { balance: 0, loss: 0, at: -1, link: -1 };
  readonly lines: FullLines;
  /** links that linearise themselves, and their places among all */
  readonly branches: readonly BranchLink[];
  readonly branchAt: Int32Array;
  private readonly beds: readonly BedLink[];
  private readonly keeps: Uint8Array;

  constructor(nodes: readonly SystemNode[], links: readonly Link[]) {
    const n = nodes.length;
    const m = links.length;
    this.nodes = nodes;
    this.links = links;
    this.head = new Float64Array(n);
    this.keeps = new Uint8Array(n);
    for (let v = 0; v < n; v++) {
      const { head, store } = nodes[v] as SystemNode;
      this.head[v] = head;
      if (store) this.keeps[v] = 1;
    }
    this.given = new Uint8Array(n);
    this.base = new Float64Array(n);
    this.through = new Float64Array(n);
    this.flow = new Float64Array(m);
    this.q = new Float64Array(m);
    this.gi = new Float64Array(m);
    this.gj = new Float64Array(m);
    this.lines = new FullLines(links);
    this.branches = links.filter((link) => link instanceof BranchLink);
    this.branchAt = new Int32Array(this.branches.length);
    for (let b = 0, e = 0; b < this.branches.length; b++, e++) {
      while (links[e] !== this.branches[b]) e++;
      this.branchAt[b] = e;
    }
    this.beds = this.branches.filter((link) => link instanceof BedLink);
  }

  /** Flows from the links, to be worked on here. */
  take(): void {
    const { branches, branchAt, flow } = this;
    this.lines.take(flow);
    for (let b = 0; b < branches.length; b++) flow[branchAt[b] as number] = (branches[b] as BranchLink).Q;
  }

  /** Flows back to the links; those that linearise themselves have theirs. */
  give(): void {
    this.lines.give(this.flow);
  }

  /** Links at the present heads, and what is left of the equations. */
  linearise(): Left {
    const { head, through, left } = this;
    for (const bed of this.beds) bed.cutAt(head[bed.surface] as number);
    if (this.beforeIteration !== nothing) {
      this.give();
      this.beforeIteration();
    }
    through.fill(0);
    left.loss = left.balance = 0;
    left.at = left.link = -1;
    this.lines.linearise(this);
    this.lineariseBranches();
    this.weigh();
    return left;
  }

  private lineariseBranches(): void {
    const { branches, branchAt, head, flow, q, gi, gj, through, left } = this;
    let symmetric = true;
    let twoSided = true;
    for (let b = 0; b < branches.length; b++) {
      const link = branches[b] as BranchLink;
      const e = branchAt[b] as number;
      const { i, j } = link;
      link.linearise(i < 0 ? 0 : (head[i] as number), j < 0 ? 0 : (head[j] as number));
      const own = link.gi;
      const other = link.gj;
      const { Q } = link;
      q[e] = link.q;
      gi[e] = own;
      gj[e] = other;
      flow[e] = Q;
      if (own !== other) {
        if (i >= 0 && j >= 0) symmetric = false;
        if (own > leak || other > leak) twoSided = false;
      }
      if (i >= 0) through[i] = (through[i] as number) - Q;
      if (j >= 0) through[j] = (through[j] as number) + Q;
      const miss = Math.abs(link.residual);
      if (!(miss <= left.loss)) {
        left.loss = miss;
        left.link = e;
      }
    }
    this.symmetric = symmetric;
    this.twoSided = twoSided;
  }

  /** What is left of each balance. */
  private weigh(): void {
    const { given, keeps, through, left, junctionStep } = this;
    let worst = 0;
    for (let v = 0; v < given.length; v++) {
      if (given[v] === 1) continue;
      let miss = through[v] as number;
      if (keeps[v] === 1) miss = Math.abs(miss - this.storing(v)) - this.rounding(v);
      else miss = Math.abs(junctionStep > 0 ? miss - this.storing(v) : miss);
      if (!(miss <= worst)) {
        worst = miss;
        left.at = v;
      }
    }
    left.balance = worst;
  }

  /** m³/s going into a node's store over this time step; without one, less what drips in. */
  storing(v: number): number {
    const { timeStep, junctionStep } = this;
    if (this.keeps[v] === 1) return timeStep > 0 ? (this.keptIn(v) - (this.base[v] as number)) / timeStep : -drip;
    return junctionStep > 0 ? (this.keptIn(v) - (this.base[v] as number)) / junctionStep : 0;
  }

  /** Whether `storing` may be other than 0 at a node. */
  stores(v: number): boolean {
    return this.keeps[v] === 1 || this.junctionStep > 0;
  }

  /** m²/s that leads out of a node by itself: into its store over this time step,
   * or all of it where its head is given. */
  leadsOut(v: number): number {
    if (this.given[v] === 1) return pinned;
    const { timeStep, junctionStep } = this;
    if (this.keeps[v] === 1)
      return timeStep > 0 ? grounded + (this.storeOf(v) as Store).area(this.head[v] as number) / timeStep : grounded;
    return junctionStep > 0 ? grounded + junction / junctionStep : grounded;
  }

  private storeOf(v: number): Store | null {
    return (this.nodes[v] as SystemNode).store;
  }

  /** m³ in a node; in a junction what it keeps in the last resort */
  keptIn(v: number): number {
    const level = this.head[v] as number;
    return this.storeOf(v)?.volume(level) ?? junction * level;
  }

  /** m³/s that the last digits of a store's volume and level pass for over this time step */
  private rounding(v: number): number {
    const store = this.timeStep > 0 ? this.storeOf(v) : null;
    if (!store) return 0;
    const level = this.head[v] as number;
    return (lastDigits * (Math.abs(this.base[v] as number) + store.area(level) * Math.abs(level))) / this.timeStep;
  }

  /** Whether what is left is within what is promised; if not, which parts are concerned. */
  judge({ balance, loss, at, link }: Left): Judged {
    const allowed = balance <= balanceTolerance || at < 0 ? balanceTolerance : 1e-6 * this.mostAt(at);
    const converged = balance <= Math.max(balanceTolerance, allowed) && loss <= lossTolerance;
    const parts = new Set<PartId>();
    if (!converged) {
      if (at >= 0) parts.add((this.nodes[at] as SystemNode).part);
      if (link >= 0) parts.add((this.links[link] as Link).part);
    }
    return { converged, balance, loss, parts: [...parts] };
  }

  /** m³/s, the greatest flow of a link at a node */
  private mostAt(v: number): number {
    let most = 0;
    this.links.forEach(({ i, j }, e) => {
      if (i === v || j === v) most = Math.max(most, Math.abs(this.flow[e] as number));
    });
    return most;
  }
}
