/** What the sizing walk is asked. */
export interface WalkWish {
  /** m³ of the pond */
  readonly pondVolume: number;
  /** of the pond's volume, gross */
  readonly vesselShare: number;
  /** vessel volumes an hour */
  readonly turnover: number;
  /** m from base to rim */
  readonly vesselHeight: number;
  /** m from the pond's water up to the vessel's base */
  readonly lift: number;
  /** m of level run between pond and vessel */
  readonly distance: number;
  /** by their names in the table of sizes */
  readonly supplySeries: string;
  readonly returnSeries: string;
  readonly efficiency: number;
  /** money per kWh */
  readonly tariff: number;
  /** money a metre of pipe and metre of bore */
  readonly pipePrice: number;
  readonly years: number;
}

export const usualWish: WalkWish = {
  pondVolume: 6,
  vesselShare: 0.1,
  turnover: 6,
  vesselHeight: 0.7,
  lift: 0.1,
  distance: 2,
  supplySeries: "PVC-U metric, SDR 13.6 (PN 16)",
  returnSeries: "PVC-U metric, SDR 21 (PN 10)",
  efficiency: 0.15,
  tariff: 0.3,
  pipePrice: 300,
  years: 5,
};
