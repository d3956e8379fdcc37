/** Loss of an upward flow through the media between two levels.
 *     h = clogging·Σ length·( A·U + B·U·|U| ),  U = Q/area        h, length m · U m/s · area m²
 *     A, B of each layer by Ergun (formulas/ergun.ts)
 * Holds for packed stone in water, grain Reynolds numbers 1 to 2,500.
 * Source: formulas/ergun.ts. Ours: clogging multiplies the whole; the sign follows the flow.
 * Needs area > 0, clogging > 0, grain > 0, 0 < porosity < 1 (the reader keeps them). `layers` holds what lies between
 * the two levels and under water, the rest cut off by the caller;
 * with no media there is no loss and no slope: such levels are joined. */
import { ergun } from "../formulas/ergun.ts";
import type { Element } from "./element.ts";

export interface BedLayer {
  /** m of this layer between the two levels */
  readonly length: number;
  readonly grain: number;
  readonly porosity: number;
}

export interface MediaBed {
  readonly layers: readonly BedLayer[];
  /** plan area, m² */
  readonly area: number;
  /** 1 = clean */
  readonly clogging: number;
  /** dynamic, Pa·s */
  readonly viscosity: number;
  readonly density: number;
}

export const mediaBed: Element<MediaBed> = {
  source: {
    title: "S. Ergun, Fluid flow through packed columns (1952)",
    where: "design notes, section 5",
    checkedIn: "published/media.test.ts",
  },
  build({ layers, area, clogging, viscosity, density }) {
    let linear = 0;
    let square = 0;
    for (const layer of layers) {
      const { perU, perU2 } = ergun({ grain: layer.grain, porosity: layer.porosity, viscosity, density });
      linear += (clogging * layer.length * perU) / area;
      square += (clogging * layer.length * perU2) / (area * area);
    }
    return {
      loss: (Q) => (linear + square * Math.abs(Q)) * Q,
      slope: (Q) => linear + 2 * square * Math.abs(Q),
      content: (Q) => (linear / 2 + (square / 3) * Math.abs(Q)) * Q * Q,
    };
  },
};
