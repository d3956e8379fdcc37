import type { PipeReading } from "../solver/running.ts";

/** m³/s, either way, in the stretch between tees that carries most */
export const largestFlow = (stretches: PipeReading["stretches"]): number =>
  Math.max(...stretches.map(([, , Q]) => Math.abs(Q)), 0);
