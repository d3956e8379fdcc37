/** Heads, flows and states of a system as they stood, to be put back: a step in time taken again with another length,
 * a solve begun anew after Newton's method lost its way. All arrays are kept between saves. */
import type { Link } from "./links/link.ts";

/** A link that remembers which of its branches is at work. */
type Stateful = Link & { state: unknown };

export class Keep {
  readonly headOf: Float64Array;
  private readonly head: Float64Array;
  private readonly links: readonly Link[];
  private readonly flows: Float64Array;
  private readonly stateful: readonly Stateful[];
  private readonly states: unknown[];

  constructor({ head, links }: { readonly head: Float64Array; readonly links: readonly Link[] }) {
    this.head = head;
    this.links = links;
    this.headOf = new Float64Array(head.length);
    this.flows = new Float64Array(links.length);
    this.stateful = links.filter((link): link is Stateful => "state" in link);
    this.states = new Array(this.stateful.length);
  }

  save(): void {
    const { links, flows, stateful, states } = this;
    this.headOf.set(this.head);
    for (let e = 0; e < links.length; e++) flows[e] = (links[e] as Link).Q;
    for (let s = 0; s < stateful.length; s++) states[s] = (stateful[s] as Stateful).state;
  }

  restoreHeads(): void {
    this.head.set(this.headOf);
  }

  restore(): void {
    const { links, flows, stateful, states } = this;
    this.restoreHeads();
    for (let e = 0; e < links.length; e++) (links[e] as Link).Q = flows[e] as number;
    for (let s = 0; s < stateful.length; s++) (stateful[s] as Stateful).state = states[s];
  }
}
