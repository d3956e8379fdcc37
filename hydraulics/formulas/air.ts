/** Density of the air that a vent draws, kg/m³: 15 °C at 101,325 Pa, dry.
 * Source: International Standard Atmosphere at sea level (ISO 2533). One value for all weathers: 0 to 30 °C
 * moves it by 5 %, and a vent's air flow, which goes with its root, by 3 %. */
export const airDensity = 1.225;

/** Density of dry air as an ideal gas.
 *     ρ = p/(R·T)        ρ kg/m³ · p Pa · T °C (made K) · R 287.05 J/(kg·K)
 * Holds near atmospheric pressure. Source: ISO 2533 (specific gas constant). */
export const airDensityAt = (T: number, pressure = 101325): number => pressure / (287.05287 * (T + 273.15));
