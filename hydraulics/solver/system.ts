/** The equations of a network and Newton's method on them.
 *
 * Unknown: the head at every node and the flow in every link. For each node what enters equals what leaves
 * (or is stored); for each link its loss equation. Linear in the flows on one side and monotone on the other,
 * so the steady state is unique, and the step in heads comes from one M-matrix:
 *     Σ over links of (gi·δHi − gj·δHj) = −(imbalance with every link at its linearised flow)
 * (the gradient method of Todini and Pilati 1988, from memory, with one-way links added).
 *
 * Safeguards, in this order: a pipe's first guess is taken for a chord (`fullLink.ts`), and links keep their own
 * signs where a law is S-shaped; from the eighth step on the length of a step is chosen so that the convex content
 * Σ∫loss dQ does not rise along it (its slope along the step is Σ residual·δQ, so no content need be summed); when
 * that does not settle, steps are halved; and last, water is given time: every unknown level and every junction
 * gets its storage and the state is followed with growing time steps until it rests. In a monotone network every
 * such step has one answer close by, and the rest is the steady state. Where parts hang together by nothing but
 * closed ways, Newton's steps are thousands of metres long, and only time brings them home.
 *
 * Close to the answer one elimination serves two steps, where the step before shows that it will do.
 *
 * Convergence is judged by residuals alone. */
import type { PartId } from "../document/section.ts";
import { Keep } from "./keep.ts";
import { BedLink } from "./links/bedLink.ts";
import { type Link, leak, outside } from "./links/link.ts";
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
/** what rounding leaves of a number that a few sums went into */
const lastDigits = 2 ** -50;
const lossTolerance = 1e-6;
/** what Newton's method aims at, well inside what is promised */
const aimedBalance = 1e-12;
const aimedLoss = 1e-10;
/** m³/s that drips into every body whose level is sought: with nothing else entering, its level is then the
 * highest at which nothing leaves, and not just any level below that. A hundredth of the flow tolerance. */
const drip = 2e-11;
/** m² of a junction while the last resort gives it water to keep: about a stand pipe */
const junction = 1e-3;
const pinned = 1e12;
const grounded = 1e-16;

/** What is left of the equations at an iterate. */
interface Left {
  /** m³/s and m, the worst */
  balance: number;
  loss: number;
  /** node and link of these; -1 where nothing is left */
  at: number;
  link: number;
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
  /** by link: the places of its ends in the matrix, i before j (-1 outside), and where its entry lies there (-1: none) */
  private readonly ends: Int32Array;
  private readonly entry: Int32Array;
  /** by link, side by side for the loops over all of them: its linearised law, and the step of its flow */
  private readonly q: Float64Array;
  private gi: Float64Array;
  private gj: Float64Array;
  private readonly step: Float64Array;
  /** conductances that the matrix was put together from, while it serves a second step */
  private factoredGi: Float64Array;
  private factoredGj: Float64Array;
  /** whether water falls freely nowhere: each conductance then counts the same both ways */
  private symmetric = false;
  /** whether no flow hangs on one level alone. Over a rim or at an edge a hair of level is a flow that can be seen, so
   * that the flow of the last step has to be the law's own and not one by an older matrix. */
  private twoSided = false;
  private readonly left: Left = { balance: 0, loss: 0, at: -1, link: -1 };
  private fresh: Keep | null = null;
  /** s; over 0 in the last resort alone, where each junction keeps water as well */
  private junctionStep = 0;
  factorisations = 0;

  constructor(nodes: readonly SystemNode[], links: readonly Link[]) {
    this.nodes = nodes;
    this.links = links;
    const n = nodes.length;
    const m = links.length;
    this.head = Float64Array.from(nodes, (node) => node.head);
    this.given = new Uint8Array(n);
    this.base = new Float64Array(n);
    const first = new Int32Array(m);
    const second = new Int32Array(m);
    let inside = 0;
    for (const { i, j } of links) {
      if (i === outside || j === outside || i === j) continue;
      first[inside] = i;
      second[inside++] = j;
    }
    this.pattern = minimumDegree(n, first.subarray(0, inside), second.subarray(0, inside));
    this.factors = new Factors(this.pattern);
    this.right = new Float64Array(n);
    this.through = new Float64Array(n);
    this.q = new Float64Array(m);
    this.gi = new Float64Array(m);
    this.gj = new Float64Array(m);
    this.factoredGi = new Float64Array(m);
    this.factoredGj = new Float64Array(m);
    this.step = new Float64Array(m);
    this.entry = new Int32Array(m).fill(-1);
    this.ends = new Int32Array(2 * m);
    const { place } = this.pattern;
    for (let e = 0; e < m; e++) {
      const { i, j } = links[e] as Link;
      const a = i === outside ? -1 : (place[i] as number);
      const b = j === outside ? -1 : (place[j] as number);
      this.ends[2 * e] = a;
      this.ends[2 * e + 1] = b;
      if (a >= 0 && b >= 0 && a !== b) this.entry[e] = entryOf(this.pattern, a, b);
    }
    this.beds = links.filter((link) => link instanceof BedLink);
  }

  /** Heads from where they stand; see the head of this file for the order of the safeguards.
   * @param patient whether the last resort is tried as well: in a time step the caller may rather take a shorter one */
  solve(patient = this.timeStep === 0): Solved {
    let spent = 0;
    if (patient) {
      this.fresh ??= new Keep(this);
      this.fresh.save();
    }
    const plain = this.newton(40, 1);
    if (plain.converged) return plain;
    spent += plain.iterations;
    const careful = this.newton(120, 0.5);
    spent += careful.iterations;
    if (careful.converged || !patient) return { ...careful, iterations: spent };
    const settled = this.inTime();
    return { ...settled, iterations: spent + settled.iterations };
  }

  private newton(most: number, length: number): Solved {
    // Volumes are rounded: over a short step their last digit is a flow of that size.
    const rounds = (step: number): boolean => step > 0 && step < 1e4;
    const aim = rounds(this.timeStep) || rounds(this.junctionStep) ? aimedBalance * 50 : aimedBalance;
    const left = this.linearise();
    let best = Number.POSITIVE_INFINITY;
    let since = 0;
    let iterations = 0;
    /** how far off the aim, now and a step before */
    let off = Number.POSITIVE_INFINITY;
    let wasOff = off;
    for (; iterations < most; iterations++) {
      // Once at least: heads behind what is shut hang on traces far under the aim.
      if (iterations > 0 && left.balance <= aim && left.loss <= aimedLoss) break;
      // Rounding has the last word: inside what is promised, and no better there for three steps.
      const measure = Math.max(left.balance / balanceTolerance, left.loss / lossTolerance);
      if (measure > 1 || measure < best * 0.5) {
        best = measure > 1 ? Number.POSITIVE_INFINITY : measure;
        since = 0;
      } else since++;
      if (since >= 3) break;
      wasOff = off;
      off = Math.max(left.balance / aim, left.loss / aimedLoss);
      // Close by, the step before tells what the same matrix would leave: 2·off²/wasOff. Where that meets the aim
      // it need not be put together and eliminated again.
      const serves = this.twoSided && length === 1 && iterations > 0 && 2 * off * off <= wasOff;
      if (serves) this.reuse();
      else this.factor();
      this.advance(length, iterations >= 8);
      this.linearise();
    }
    return { ...this.judge(left), iterations };
  }

  /** Links at the present heads, and what is left of the equations. */
  private linearise(): Left {
    const { links, head, through, nodes, given, q, gi, gj, left } = this;
    for (const bed of this.beds) bed.cutAt(head[bed.surface] as number);
    this.beforeIteration();
    through.fill(0);
    left.loss = left.balance = 0;
    left.at = left.link = -1;
    let symmetric = true;
    let twoSided = true;
    for (let e = 0; e < links.length; e++) {
      const link = links[e] as Link;
      const { i, j } = link;
      link.linearise(i < 0 ? 0 : (head[i] as number), j < 0 ? 0 : (head[j] as number));
      q[e] = link.q;
      const own = link.gi;
      const other = link.gj;
      gi[e] = own;
      gj[e] = other;
      if (own !== other) {
        if (i >= 0 && j >= 0) symmetric = false;
        if (own > leak || other > leak) twoSided = false;
      }
      const { Q } = link;
      if (i >= 0) through[i] = (through[i] as number) - Q;
      if (j >= 0) through[j] = (through[j] as number) + Q;
      const miss = Math.abs(link.residual);
      if (miss > left.loss || Number.isNaN(miss)) {
        left.loss = miss;
        left.link = e;
      }
    }
    this.symmetric = symmetric;
    this.twoSided = twoSided;
    for (let v = 0; v < nodes.length; v++) {
      if (given[v]) continue;
      const miss = Math.abs((through[v] as number) - this.storing(v)) - this.rounding(v);
      if (miss > left.balance || Number.isNaN(miss)) {
        left.balance = miss;
        left.at = v;
      }
    }
    return left;
  }

  /** m³/s going into a node's store over this time step; without one, less what drips in. */
  private storing(v: number): number {
    const { timeStep, junctionStep } = this;
    if ((this.nodes[v] as SystemNode).store)
      return timeStep > 0 ? (this.keptIn(v) - (this.base[v] as number)) / timeStep : -drip;
    return junctionStep > 0 ? (this.keptIn(v) - (this.base[v] as number)) / junctionStep : 0;
  }

  /** m³/s that the last digits of a store's volume and level pass for over this time step */
  private rounding(v: number): number {
    const store = this.timeStep > 0 ? this.nodes[v]?.store : null;
    if (!store) return 0;
    const level = this.head[v] as number;
    return (lastDigits * (Math.abs(this.base[v] as number) + store.area(level) * Math.abs(level))) / this.timeStep;
  }

  private factor(): void {
    const { factors, ends, entry, symmetric } = this;
    // The matrix is put together from this iterate's conductances: they are kept as long as it serves.
    [this.gi, this.factoredGi] = [this.factoredGi, this.gi];
    [this.gj, this.factoredGj] = [this.factoredGj, this.gj];
    const { factoredGi, factoredGj } = this;
    factors.symmetric = symmetric;
    factors.clear();
    const { lower, upper, excess } = factors;
    for (let e = 0; e < entry.length; e++) {
      const at = entry[e] as number;
      const a = ends[2 * e] as number;
      const b = ends[2 * e + 1] as number;
      const gi = factoredGi[e] as number;
      const gj = factoredGj[e] as number;
      if (at >= 0) {
        // a(j, i) = −gi and a(i, j) = −gj
        lower[at] = (lower[at] as number) + (a < b ? gi : gj);
        if (!symmetric) upper[at] = (upper[at] as number) + (a < b ? gj : gi);
      } else if (a !== b) {
        if (a >= 0) excess[a] = (excess[a] as number) + gi;
        if (b >= 0) excess[b] = (excess[b] as number) + gj;
      }
    }
    const { nodes, given, head, timeStep, junctionStep } = this;
    const { place } = this.pattern;
    for (let v = 0; v < nodes.length; v++) {
      const p = place[v] as number;
      const store = (nodes[v] as SystemNode).store;
      let out = grounded;
      if (given[v]) out = pinned;
      else if (store && timeStep > 0) out += store.area(head[v] as number) / timeStep;
      else if (!store && junctionStep > 0) out += junction / junctionStep;
      excess[p] = (excess[p] as number) + out;
    }
    factors.factor();
    this.factorisations++;
    this.reuse();
  }

  /** Changes of the heads from the matrix as it was eliminated last, into `right`, by place. */
  private reuse(): void {
    const { right, q, ends, nodes, given } = this;
    const { place } = this.pattern;
    right.fill(0);
    for (let e = 0; e < q.length; e++) {
      const a = ends[2 * e] as number;
      const b = ends[2 * e + 1] as number;
      if (a >= 0) right[a] = (right[a] as number) - (q[e] as number);
      if (b >= 0) right[b] = (right[b] as number) + (q[e] as number);
    }
    for (let v = 0; v < nodes.length; v++) {
      if (given[v]) right[place[v] as number] = 0;
      else if ((nodes[v] as SystemNode).store || this.junctionStep > 0)
        right[place[v] as number] = (right[place[v] as number] as number) - this.storing(v);
    }
    this.factors.solve(right);
  }

  /** One step of Newton's method, `length` of it, shorter where the content would rise. */
  private advance(length: number, guarded: boolean): void {
    const { links, head, right, given, nodes, step, ends, q, factoredGi, factoredGj } = this;
    const { place } = this.pattern;
    for (let v = 0; v < nodes.length; v++) {
      if (given[v]) continue;
      const { least = -1e4, most = 1e4 } = nodes[v] as SystemNode;
      const from = head[v] as number;
      const to = from + (right[place[v] as number] as number);
      // A step that is not cut short keeps its own digits: at an edge less than the last one of a level is a flow.
      if (to > most) right[place[v] as number] = most - from;
      else if (to < least) right[place[v] as number] = least - from;
    }
    for (let e = 0; e < links.length; e++) {
      const a = ends[2 * e] as number;
      const b = ends[2 * e + 1] as number;
      const di = a < 0 ? 0 : (right[a] as number);
      const dj = b < 0 ? 0 : (right[b] as number);
      step[e] =
        (q[e] as number) + (factoredGi[e] as number) * di - (factoredGj[e] as number) * dj - (links[e] as Link).Q;
    }
    const t = length * (guarded && this.symmetric ? this.contentStep() : 1);
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

  /** Follows the unknown heads in time, with steps that grow, until the state rests. Every junction keeps a little
   * water: over a short step all heads then stay nearly where they are and each link finds its own flow, so that no
   * step leaps. Bodies go along where their level is sought, and what drips in goes on rising to the highest level at
   * which nothing leaves; in a time step of the caller's they keep to that one. */
  private inTime(): Solved {
    const callers = this.timeStep;
    let spent = 0;
    // From where everything began, not from wherever Newton's method lost its way.
    this.fresh?.restore();
    const good = new Keep(this);
    good.save();
    const moving = this.nodes.map(({ store }, v) => !this.given[v] && (callers === 0 || !store));
    const before = new Float64Array(this.nodes.length);
    let rested: Solved | null = null;
    let dt = 1;
    for (let k = 0; k < 80 && dt < 1e16 && dt > 1e-6 && !rested; k++) {
      this.junctionStep = dt;
      if (callers === 0) this.timeStep = dt;
      for (let v = 0; v < moving.length; v++) {
        if (!moving[v]) continue;
        before[v] = this.keptIn(v);
        this.base[v] = (before[v] as number) + (this.nodes[v]?.store ? drip * dt : 0);
      }
      let step = this.newton(30, 1);
      if (!step.converged) {
        good.restore();
        step = this.newton(80, 0.4);
      }
      spent += step.iterations;
      if (step.converged) {
        let moved = 0;
        for (let v = 0; v < moving.length; v++)
          if (moving[v]) moved = Math.max(moved, Math.abs(this.keptIn(v) - (before[v] as number)) / dt);
        if (dt > 1e5 && moved <= aimedBalance) rested = this.judgeAtRest(callers);
        good.save();
      } else good.restore();
      dt *= step.converged ? 4 : 0.2;
    }
    this.junctionStep = 0;
    this.timeStep = callers;
    if (rested) return { ...rested, iterations: spent };
    const last = this.newton(120, 0.5);
    return { ...last, iterations: spent + last.iterations };
  }

  /** m³ in a node; in a junction what it keeps in the last resort */
  private keptIn(v: number): number {
    const level = this.head[v] as number;
    return this.nodes[v]?.store?.volume(level) ?? junction * level;
  }

  /** The state as it stands, judged by the caller's own equations; null where it does not meet every one. */
  private judgeAtRest(callers: number): Solved | null {
    const { timeStep, junctionStep } = this;
    this.junctionStep = 0;
    this.timeStep = callers;
    const seen = this.judge(this.linearise());
    this.timeStep = timeStep;
    this.junctionStep = junctionStep;
    return seen.converged ? { ...seen, iterations: 0 } : null;
  }

  private judge(seen: Left): Omit<Solved, "iterations"> {
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
