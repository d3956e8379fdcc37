/** Levels and places as a builder would set them out. */

/** up to the next millimetre; what is there to within a micrometre stays */
export const upToMm = (level: number): number => Number((Math.ceil(level * 1000 - 1e-3) / 1000).toFixed(3));
export const downToMm = (level: number): number => Number((Math.floor(level * 1000 + 1e-3) / 1000).toFixed(3));
/** a place along a pipe, down to a tenth of a millimetre, so that it stays on it */
export const along = (at: number): number => Number((Math.floor(at * 1e4 + 1e-6) / 1e4).toFixed(4));
