/** How far codes of backflow want an opening that lets air in to stand above the flood rim, m:
 * 6 in, rounded as metric codes do.
 * Source: the habit of plumbing codes for atmospheric vacuum breakers (ASSE 1001, Uniform Plumbing Code 603.4.7), seen
 * quoted; other codes ask for more. An advice for a vent, not a law of hydraulics; published/air.test.ts. */
export const ventAboveRim = 0.15;
