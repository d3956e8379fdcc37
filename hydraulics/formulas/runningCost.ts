/** What a pump costs in a year of 365 days, day and night.
 *     cost = W/1000 · 8760 h · tariff        W drawn · tariff money per kWh
 * Holds for a pump that draws the same all year at one price. Source: arithmetic. */
export const hoursPerYear = 8760;

export const yearlyEnergy = (watts: number): number => (watts / 1000) * hoursPerYear;

export const yearlyCost = (watts: number, tariff: number): number => yearlyEnergy(watts) * tariff;
