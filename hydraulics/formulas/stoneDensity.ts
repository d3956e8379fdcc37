/** kg/m³ of solid stone (quartz, granite): common practice, no source. */
export const stoneDensity = 2650;
