/** m, up to the next tenth of a millimetre: an ample bore rounded down would not be ample. */
export const upToTenth = (bore: number): number => Math.ceil(bore * 1e4 - 1e-9) / 1e4;
