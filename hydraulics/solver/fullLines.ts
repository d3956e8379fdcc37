/** All stretches of full pipe of a network side by side: one loop linearises them, another takes a step.
 *
 * A large network is little else. Their laws are read as numbers (`LawNumbers`) from arrays, so that no iteration calls
 * a law, makes an object or boxes a number for each of ten thousand links.
 * What is not of those shapes is asked itself. */
import { phiAndSlope } from "../elements/darcyWeisbach.ts";
import { type Loss, type LossAndSlope, lossAndSlope } from "../elements/element.ts";
import { must } from "../must.ts";
import { FullLink, opening, openingLoss, stopped } from "./links/fullLink.ts";
import { type Link, leak, shutTrace } from "./links/link.ts";

/** What the loops over links read and write: heads by node, all else by link. */
export interface Iterate {
  readonly head: Float64Array;
  readonly flow: Float64Array;
  readonly q: Float64Array;
  readonly gi: Float64Array;
  readonly gj: Float64Array;
  /** m³/s that enters, by node */
  readonly through: Float64Array;
  /** the worst loss equation, m, and its link */
  readonly left: { loss: number; link: number };
}

const power = 0;
const rough = 1;
const itself = 2;

const pair: LossAndSlope = { loss: 0, slope: 0 };

export class FullLines {
  private readonly links: readonly FullLink[];
  /** of each: its place among all links, its ends */
  private readonly at: Int32Array;
  private readonly i: Int32Array;
  private readonly j: Int32Array;
  /** friction: which law, and its numbers (r, power, knee, or headPerPhi, reynoldsPerFlow, k) */
  private readonly shape: Uint8Array;
  private readonly friction: Float64Array;
  /** fittings: r and knee towards j, r and knee towards i */
  private readonly fittings: Float64Array;
  private readonly most: Float64Array;
  /** m³/s to begin with; not a number where it is shut */
  private readonly guess: Float64Array;
  /** 1: shut, or passed one way only */
  private readonly valved: Uint8Array;
  /** whether a step was taken; before that a flow may be a first guess */
  private begun = false;

  constructor(links: readonly Link[]) {
    const lines = links.filter((link) => link instanceof FullLink);
    const count = lines.length;
    this.links = lines;
    this.at = new Int32Array(count);
    this.i = new Int32Array(count);
    this.j = new Int32Array(count);
    this.most = new Float64Array(count);
    this.guess = new Float64Array(count);
    this.shape = new Uint8Array(count);
    this.friction = new Float64Array(3 * count);
    this.fittings = new Float64Array(4 * count);
    this.valved = new Uint8Array(count);
    for (let k = 0, e = 0; k < count; k++, e++) {
      const line = lines[k] as FullLink;
      while (links[e] !== line) e++;
      this.at[k] = e;
      this.read(k, line);
    }
  }

  private read(k: number, { i, j, most, guess, stretch }: FullLink): void {
    must(i >= 0 && j >= 0, "a full stretch has a node at either end");
    const { shape, friction, fittings } = this;
    const { numbers } = stretch.friction;
    const forward = squareOf(stretch.forward);
    const backward = squareOf(stretch.backward);
    this.i[k] = i;
    this.j[k] = j;
    this.most[k] = most;
    this.guess[k] = stretch.shut ? Number.NaN : guess;
    this.valved[k] = stretch.shut || stretch.oneWay !== 0 ? 1 : 0;
    if (!numbers || !forward || !backward) {
      shape[k] = itself;
      return;
    }
    fittings[4 * k] = forward.r;
    fittings[4 * k + 1] = forward.knee;
    fittings[4 * k + 2] = backward.r;
    fittings[4 * k + 3] = backward.knee;
    const isPower = numbers.shape === "power";
    shape[k] = isPower ? power : rough;
    friction[3 * k] = isPower ? numbers.r : numbers.headPerPhi;
    friction[3 * k + 1] = isPower ? numbers.power : numbers.reynoldsPerFlow;
    friction[3 * k + 2] = isPower ? numbers.knee : numbers.k;
  }

  /** Takes the flows over that stand in the links, and gives them back. */
  take(flow: Float64Array): void {
    const { links, at } = this;
    for (let k = 0; k < at.length; k++) flow[at[k] as number] = (links[k] as FullLink).Q;
  }

  give(flow: Float64Array): void {
    const { links, at } = this;
    for (let k = 0; k < at.length; k++) (links[k] as FullLink).Q = flow[at[k] as number] as number;
  }

  linearise({ head, flow, q, gi, gj, through, left }: Iterate): void {
    const { at, i, j, shape, friction, fittings, guess, valved, begun } = this;
    let worst = left.loss;
    let worstAt = left.link;
    for (let k = 0; k < at.length; k++) {
      const e = at[k] as number;
      const a = i[k] as number;
      const b = j[k] as number;
      const fall = (head[a] as number) - (head[b] as number);
      let Q = flow[e] as number;
      let loss: number;
      let slope: number;
      if (shape[k] === itself) {
        this.ask(k, Q);
        loss = pair.loss;
        slope = pair.slope;
      } else {
        const f = 3 * k;
        const size = Math.abs(Q);
        if (shape[k] === power) {
          const n = friction[f + 1] as number;
          const knee = friction[f + 2] as number;
          // As exp(n·ln Q) it takes half the time of a power and differs in the last digit or two.
          slope = (friction[f] as number) * Math.exp(n * Math.log(Math.max(size, knee)));
          loss = slope * Q;
          if (size > knee) slope *= n + 1;
        } else {
          const headPerPhi = friction[f] as number;
          const reynoldsPerFlow = friction[f + 1] as number;
          phiAndSlope(size * reynoldsPerFlow, friction[f + 2] as number, pair);
          loss = Q < 0 ? -headPerPhi * pair.loss : headPerPhi * pair.loss;
          slope = headPerPhi * reynoldsPerFlow * pair.slope;
        }
        const side = Q >= 0 ? 4 * k : 4 * k + 2;
        const knee = fittings[side + 1] as number;
        const each = (fittings[side] as number) * Math.max(size, knee);
        loss += each * Q;
        slope += size > knee ? 2 * each : each;
      }
      if (valved[k] === 1) {
        const { shut, oneWay, openingHead } = (this.links[k] as FullLink).stretch;
        if (shut) {
          Q = leak * fall;
          flow[e] = Q;
          loss = fall;
          slope = stopped;
        } else if (Q * oneWay < 0) {
          loss = Q * stopped;
          slope = stopped;
        } else if (openingHead !== 0) {
          loss += openingLoss(Q, oneWay, openingHead);
          if (Math.abs(Q) < opening) slope += openingHead / opening;
        }
      }
      // The chord of a first guess: which way the water goes is not known yet, and a tangent would lean to one side.
      if (!begun && Q === guess[k]) slope = loss / Q;
      const drop = fall - loss;
      const g = 1 / slope;
      gi[e] = g;
      gj[e] = g;
      q[e] = Q + drop * g;
      through[a] = (through[a] as number) - Q;
      through[b] = (through[b] as number) + Q;
      const miss = Math.abs(drop);
      if (!(miss <= worst)) {
        worst = miss;
        worstAt = e;
      }
    }
    left.loss = worst;
    left.link = worstAt;
  }

  /** Takes `t` of the step of every flow.
   * Against a check valve the law is all but vertical: a step that lands there is set back to where it begins. */
  accept(flow: Float64Array, step: Float64Array, t: number): void {
    const { at, most, guess, valved, begun } = this;
    for (let k = 0; k < at.length; k++) {
      const e = at[k] as number;
      const was = flow[e] as number;
      const bound = most[k] as number;
      let Q = Math.min(bound, Math.max(-bound, was + t * (step[e] as number)));
      // Heads by chords are a fair answer, flows are not: under a square law the flow that goes with a chord's head
      // lies at the root of guess and chord's flow.
      if (!begun && was === guess[k]) Q = Math.sign(Q) * Math.sqrt(Math.abs(Q * was));
      if (valved[k] === 1) {
        const { oneWay } = (this.links[k] as FullLink).stretch;
        if (oneWay !== 0 && Q * oneWay < -shutTrace) Q = -oneWay * shutTrace;
      }
      flow[e] = Q;
    }
    this.begun = true;
  }

  /** Loss and slope of a stretch whose laws are not numbers, into `pair`. */
  private ask(k: number, Q: number): void {
    const { friction, forward, backward } = (this.links[k] as FullLink).stretch;
    lossAndSlope(Q >= 0 ? forward : backward, Q, pair);
    const { loss, slope } = pair;
    lossAndSlope(friction, Q, pair);
    pair.loss += loss;
    pair.slope += slope;
  }
}

/** Factor on Q·|Q| and knee of a fitting's law; null where it is another. */
function squareOf({ numbers }: Loss): { readonly r: number; readonly knee: number } | null {
  return numbers?.shape === "power" && numbers.power === 1 ? numbers : null;
}
