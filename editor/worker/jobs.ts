/** Long work besides the sheet's own solving: a pump's system curve, a sweep, a sizing walk, another state of the
 * drawing. Each job has a worker of its own, so that stopping it is ending it. */
import type {
  Assessment,
  PartId,
  ReturnPoint,
  Section,
  SweepRange,
  SweepRow,
  SweptField,
  SystemPoint,
  Walk,
  WalkWish,
} from "../../hydraulics/index.ts";

export type Job =
  | { readonly kind: "systemCurve"; readonly section: Section; readonly pump: PartId; readonly points: number }
  | {
      readonly kind: "sweep";
      readonly section: Section;
      readonly over:
        | { readonly field: SweptField; readonly range: SweepRange }
        | { readonly pipe: PartId; readonly series: string };
      readonly watched: PartId | null;
    }
  | { readonly kind: "returnCurve"; readonly section: Section; readonly vessel: PartId }
  | { readonly kind: "walk"; readonly wish: WalkWish }
  | { readonly kind: "assess"; readonly section: Section };

/** A point of the system curve as drawn, with all losses at their least and at their greatest. */
export interface SystemCurvePoint extends SystemPoint {
  readonly low: number | null;
  readonly high: number | null;
}

export type JobAnswer =
  | { readonly kind: "point"; readonly point: SystemCurvePoint }
  | { readonly kind: "row"; readonly row: SweepRow; readonly total: number }
  | { readonly kind: "returnCurve"; readonly points: readonly ReturnPoint[] }
  | { readonly kind: "walk"; readonly walk: Walk }
  | { readonly kind: "assessment"; readonly assessment: Assessment }
  | { readonly kind: "done" }
  | { readonly kind: "broken"; readonly why: string };
