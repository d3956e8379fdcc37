/** The hands on one sheet: what they do now, where the pointers are, and how a place under one of them is met. */
import type { PartId, Point, Section } from "../../../hydraulics/index.ts";
import { ownerOf } from "../../scene/inFault.ts";
import { boundsOf } from "../../sheet/transform.ts";
import { bodyAt } from "../../state/actions/newPart.ts";
import type { Desk } from "../../state/desk.ts";
import type { Camera, Tool } from "../../state/view.ts";
import type { DragWish } from "../drag.ts";
import { partAt } from "../hit.ts";
import type { Px } from "../projection.ts";
import { snapStep } from "../snap.ts";
import { inSight, isInRect } from "../zoom.ts";
import {
  type GestureContext,
  type Hand,
  type HandShow,
  reachOf,
  restingHand,
  unmarked,
  type WaitingPull,
} from "./hand.ts";

/** A move of a pointer as far as it counts. */
export interface Move {
  readonly pointer: number;
  readonly at: Px;
  readonly alt: boolean;
  readonly touch: boolean;
  readonly shift: boolean;
}

export class Hands {
  readonly element: HTMLElement;
  readonly context: GestureContext;
  readonly desk: Desk;
  hand: Hand = { does: "nothing" };
  shown: HandShow = restingHand;
  spaceHeld = false;
  /** where the pointer is, for a key pressed in mid drag */
  last: Pick<Move, "at" | "alt" | "touch"> | null = null;
  /** where each pointer is that is down on the sheet */
  readonly down = new Map<number, Px>();
  /** the newest move, until the next frame takes it up */
  later: Move | null = null;
  frame = 0;
  /** whether the preview is a stencil's, under a pointer that holds nothing */
  ghosted = false;
  /** ms, by the events' clock: when a part was set down last */
  setDownAt = Number.NEGATIVE_INFINITY;
  /** the drawing and the stencil that what is shown was made for */
  madeFor: { readonly section: Section; readonly tool: Tool | null };
  /** a stencil that is pressed but has not left the row yet */
  stencil: { readonly tool: Tool; readonly pointer: number; readonly at: Px } | null = null;

  constructor(element: HTMLElement, context: GestureContext) {
    this.element = element;
    this.context = context;
    this.desk = context.desk;
    const { section, view } = this.desk.get();
    this.madeFor = { section, tool: view.tool };
  }

  show(next: Partial<HandShow>): void {
    this.shown = { ...this.shown, ...next };
    this.context.show(this.shown);
  }

  /** @param back what goes on after it */
  rest(back: WaitingPull | null = null): void {
    this.hand = back ?? { does: "nothing" };
    this.show({ ...unmarked, marquee: null });
  }

  /** Takes away what a stencil shows under a pointer that holds nothing. */
  hideGhost(): void {
    if (this.ghosted) this.desk.dropPreview();
    this.ghosted = false;
    if (this.shown.at) this.show(unmarked);
  }

  /** True where there was something to leave. */
  cancel(): boolean {
    const busy = this.hand.does !== "nothing" || this.stencil !== null;
    this.stencil = null;
    this.later = null;
    this.desk.dropPreview();
    this.rest();
    return busy;
  }

  /** Whether a pointer is pressed, on the sheet or on a stencil. */
  holds(pointer: number): boolean {
    const { hand, stencil } = this;
    return (
      this.down.has(pointer) || stencil?.pointer === pointer || (hand.does === "place" && hand.pointer === pointer)
    );
  }

  /** A pointer was taken away: by the browser, or let go where nobody told us. */
  lose(pointer: number): void {
    this.down.delete(pointer);
    if (this.stencil?.pointer === pointer) this.stencil = null;
    if (this.hand.does === "pan" && this.hand.pointer === pointer) this.rest(this.hand.back);
    else if (this.hand.does === "pinch") this.rest(this.hand.back);
    else if ("pointer" in this.hand && this.hand.pointer === pointer) this.cancel();
  }

  look(camera: Camera): void {
    const { clientWidth: width, clientHeight: height } = this.element;
    const seen = inSight(camera, boundsOf(this.desk.get().section), { width, height });
    this.desk.look((view) => ({ ...view, camera: seen }));
  }

  px(event: { readonly clientX: number; readonly clientY: number }): Px {
    const box = this.element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  site(at: Px): Point {
    return this.context.projection().site(at);
  }

  metres(px: number): number {
    return px / this.context.projection().pxPerMetre;
  }

  /** What a pointer at a place asks for, whatever it drags, pulls or sets down there. */
  wish(at: Px, touch: boolean, loose: boolean): DragWish {
    const { pxPerMetre } = this.context.projection();
    return {
      at: this.site(at),
      grid: { step: snapStep(pxPerMetre, this.desk.get().view.units), reach: this.metres(7) },
      reach: this.metres(reachOf(touch)),
      loose,
    };
  }

  /** The pointer that the hand goes by; -1 where it goes by any. */
  pointer(): number {
    return "pointer" in this.hand ? (this.hand.pointer ?? -1) : -1;
  }

  /** Whether a part can be set down there: on the section, with nothing of the page over it. */
  isOverField([x, y]: Px): boolean {
    const field = this.context.field();
    const box = this.element.getBoundingClientRect();
    const over = document.elementFromPoint(box.left + x, box.top + y);
    return isInRect([x, y], field) && over !== null && this.element.contains(over);
  }

  /** The part under the pointer. A body is met all over, its air included. */
  met(at: Px, reach: number): PartId | null {
    const { nodes, projection } = this.context;
    const { section } = this.desk.get();
    return this.drawnPart(partAt(nodes(), projection(), at, reach)) ?? bodyAt(section, this.site(at))?.id ?? null;
  }

  /** In a fault that is played there are parts besides the drawing's: a plug, a piece of a line. */
  private drawnPart(id: PartId | null): PartId | null {
    const owner = id && ownerOf(id);
    return owner && this.desk.get().section.parts.has(owner) ? owner : null;
  }
}
