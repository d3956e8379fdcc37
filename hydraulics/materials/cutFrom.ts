/** Pieces out of stock lengths: longest first, each into the first length that still takes it. A piece longer than a
 * stock length is joined from whole ones and a rest. Saw cuts are not counted (2 mm each).
 *
 * First fit decreasing: never more than 11/9 of the least number and one, and with a garden's few legs hardly ever one
 * too many (from memory). */
import { must } from "../must.ts";

export interface Cut {
  /** m of one as it is sold */
  readonly stock: number;
  readonly count: number;
  /** m left over in all */
  readonly offcut: number;
  /** m; what is cut out of each, for who saws */
  readonly pieces: readonly (readonly number[])[];
  /** couplings where a leg is longer than a stock length */
  readonly couplings: number;
}

/** m; a length that is over by less than this still fits */
const slack = 1e-9;

export function cutFrom(legs: readonly number[], stock: number): Cut {
  must(stock > 0, "stock is sold in lengths");
  const bars: { pieces: number[]; left: number }[] = [];
  const rests: number[] = [];
  let couplings = 0;
  for (const leg of legs) {
    const whole = leg > stock + slack ? Math.ceil((leg - slack) / stock) - 1 : 0;
    for (let k = 0; k < whole; k++) bars.push({ pieces: [stock], left: 0 });
    couplings += whole;
    rests.push(leg - whole * stock);
  }
  for (const rest of rests.sort((a, b) => b - a)) {
    const bar = bars.find(({ left }) => left + slack >= rest);
    if (bar) {
      bar.pieces.push(rest);
      bar.left -= rest;
    } else bars.push({ pieces: [rest], left: stock - rest });
  }
  return {
    stock,
    count: bars.length,
    offcut: bars.reduce((sum, { left }) => sum + Math.max(0, left), 0),
    pieces: bars.map(({ pieces }) => pieces),
    couplings,
  };
}
