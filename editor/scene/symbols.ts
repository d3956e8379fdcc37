/** Symbols as path data, millimetres about their place, drawn for a flow to the right. After ISO 14617 (valves,
 * pumps) and ISO 128 (levels). */

/** Open triangle standing on its level. */
export const levelTriangle = "M-1.3 -2.2H1.3L0 0Z";
/** Water surface: the triangle with its three lines under it. */
export const waterSurface = "M-1.7 -2.6H1.7L0 -0.2Z";
export const waterSurfaceLines = "M-1.9 0.9H1.9M-1.25 1.7H1.25M-0.6 2.5H0.6";
export const pumpTriangle = "M0 -4L3.46 2H-3.46Z";
export const pumpRadius = 4;
export const bowTie = "M-2.7 -1.7V1.7L2.7 -1.7V1.7Z";
/** Stem and hand of a valve, to the side. */
export const valveHand = "M0 0V-3M-1.5 -3H1.5";
/** Triangle against its seat. */
export const checkTriangle = "M-2.2 -1.8V1.8L1.6 0Z";
export const checkSeat = "M1.9 -1.9V1.9";
export const crossedOut = "M-2.4 -2.4L2.4 2.4M-2.4 2.4L2.4 -2.4";
export const chevron = "M-0.8 -0.85L0.6 0L-0.8 0.85";
/** Hood over an open end. */
export const ventHood = "M-1.7 0.1A1.7 1.7 0 0 1 1.7 0.1";
/** ISO 129: oblique stroke at the end of a dimension line. */
export const dimensionStroke = "M-1.1 1.1L1.1 -1.1";
export const noteCorner = "M-1.6 -1.9H0.7L1.6 -1V1.9H-1.6ZM0.7 -1.9V-1H1.6M-0.8 0H0.8M-0.8 0.9H0.8";
