/** What the hand is doing, as one value, and what is shown meanwhile. */
import type { PartId, Point, Section } from "../../../hydraulics/index.ts";
import type { SceneNode } from "../../scene/node.ts";
import type { Rect } from "../../sheet/transform.ts";
import type { Desk } from "../../state/desk.ts";
import type { Camera, Tool } from "../../state/view.ts";
import type { Dragged } from "../drag.ts";
import type { Grip } from "../grip.ts";
import type { Projection, Px } from "../projection.ts";
import type { Guide } from "../snap.ts";

/** What is shown while the hand is busy, beside the preview itself. */
export interface HandShow {
  readonly guides: readonly Guide[];
  readonly figure: Dragged["figure"];
  readonly marquee: readonly [Px, Px] | null;
  readonly cursor: string;
  /** the pointer, px: where the tag with the live figures stands */
  readonly at: Px | null;
  readonly hover: PartId | null;
  /** the part that was pressed last, and where: its slip's leader leads there */
  readonly pressed: { readonly part: PartId; readonly at: Point } | null;
}

export const restingHand: HandShow = {
  guides: [],
  figure: null,
  marquee: null,
  cursor: "default",
  at: null,
  hover: null,
  pressed: null,
};

/** No word of what the hand snapped to, and no tag beside it. */
export const unmarked = { guides: [], figure: null, at: null } as const satisfies Partial<HandShow>;

export interface GestureContext {
  readonly desk: Desk;
  readonly projection: () => Projection;
  readonly nodes: () => readonly SceneNode[];
  /** px: where the section is; parts are set down nowhere else */
  readonly field: () => Rect;
  readonly show: (show: HandShow) => void;
}

export type Hand =
  | { readonly does: "nothing" }
  | {
      readonly does: "press";
      readonly pointer: number;
      readonly at: Px;
      /** what was pressed, and what of it is taken hold of: of its words, which may lie anywhere, nothing */
      readonly part: PartId | null;
      readonly grip: Grip | null;
      readonly added: PartId | null;
      readonly section: Section;
      readonly touch: boolean;
    }
  | {
      readonly does: "drag";
      readonly pointer: number;
      /** where on the site it was taken hold of: the sheet may be moved or zoomed under the hand */
      readonly from: Point;
      readonly grip: Grip;
      readonly section: Section;
    }
  | { readonly does: "marquee"; readonly pointer: number; readonly from: Px; readonly kept: ReadonlySet<PartId> }
  | {
      readonly does: "pan";
      readonly pointer: number;
      readonly from: Px;
      readonly camera: Camera;
      readonly back: WaitingPull | null;
    }
  | {
      readonly does: "pinch";
      readonly pointers: readonly [number, number];
      readonly camera: Camera;
      readonly middle: Px;
      readonly span: number;
      readonly back: WaitingPull | null;
    }
  | {
      readonly does: "place";
      readonly pointer: number;
      readonly tool: Tool;
      readonly section: Section;
    }
  | Pull;

interface Pull {
  readonly does: "pull";
  /** null: its first end is set down by a click, and the pipe follows whatever moves */
  readonly pointer: number | null;
  /** where on the site it was pressed: the sheet may be moved or zoomed under the hand */
  readonly pressed: Point;
  /** what that snapped to: where its first end is wished */
  readonly from: Point;
  readonly section: Section;
}

/** A pipe with one end set down, while the hand moves the sheet: it goes on after that. */
export type WaitingPull = Pull & { readonly pointer: null };

export const waitingIn = (hand: Hand): WaitingPull | null => (hand.does === "pull" ? { ...hand, pointer: null } : null);

/** px that a press may tremble before it is a drag; fingers tremble more. */
export const tremble = { mouse: 4, touch: 9 };
export const reachOf = (touch: boolean): number => (touch ? 18 : 9);
