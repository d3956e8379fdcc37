/** Stone surface in a bed, on which the biofilm lives.
 *     a = 6·(1 − ε)/d        a m² per m³ of bed · d m grain · ε porosity
 * Holds for spheres; broken stone has some 20 to 50 % more (from memory).
 * Source: geometry; C. J. Geankoplis, Transport Processes and Unit Operations, section 3.1; published/media.test.ts. */
export const surfacePerVolume = (grain: number, porosity: number): number => (6 * (1 - porosity)) / grain;

/** Share of voids from the weight of the dry bed, kg/m³, and that of the solid stone. */
export const porosityOf = (bulkDensity: number, solidDensity: number): number => 1 - bulkDensity / solidDensity;
