/** Area of a full bore.
 *     A = π·D²/4        A m² · D m
 * Holds for any circle. Source: geometry. */
export const boreArea = (D: number): number => (Math.PI * D * D) / 4;
