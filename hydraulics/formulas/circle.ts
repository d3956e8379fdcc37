/** Area of a full bore, m². */
export const boreArea = (D: number): number => (Math.PI * D * D) / 4;
