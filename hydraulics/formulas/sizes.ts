/** Pipe, hose and tube as sold: a name and a bore. The drawing keeps both.
 * Bore of metric pipe = nominal outside diameter less twice the least wall, so the true bore is a little smaller;
 * 1 % of bore is 5 % of friction. Each series says where its walls come from. */

import type { Material } from "../document/section.ts";
import { must } from "../must.ts";

export interface PipeSize {
  readonly name: string;
  /** m */
  readonly bore: number;
}

export interface SizeSeries {
  readonly name: string;
  readonly material: Material;
  readonly source: string;
  readonly sizes: readonly PipeSize[];
}

/** [name, bore in mm] */
type Row = readonly [name: string, boreMm: number];

const series = (name: string, material: Material, source: string, rows: readonly Row[]): SizeSeries => ({
  name,
  material,
  source,
  // 45.2 mm are 0.0452 m in a file, not 0.045200000000000004.
  sizes: rows.map(([size, mm]) => ({ name: size, bore: Number((mm / 1000).toFixed(6)) })),
});

export const sizeSeries: readonly SizeSeries[] = [
  series("PVC-U metric, SDR 21 (PN 10)", "pvc", "DIN 8062, series 4, least walls (public chart)", [
    ["25", 22.0],
    ["32", 28.4],
    ["40", 36.2],
    ["50", 45.2],
    ["63", 57.0],
    ["75", 67.8],
    ["90", 81.4],
    ["110", 99.4],
  ]),
  series("PVC-U metric, SDR 13.6 (PN 16)", "pvc", "DIN 8062, series 5, least walls (public chart)", [
    ["20", 17.0],
    ["25", 21.2],
    ["32", 27.2],
    ["40", 34.0],
    ["50", 42.6],
    ["63", 53.6],
    ["75", 63.8],
    ["90", 76.6],
    ["110", 93.6],
  ]),
  series("PVC Schedule 40", "pvc", "ASTM D1785, outside diameter less twice the least wall", [
    ["½ in", 15.8],
    ["¾ in", 20.9],
    ["1 in", 26.6],
    ["1¼ in", 35.1],
    ["1½ in", 40.9],
    ["2 in", 52.5],
    ["2½ in", 62.7],
    ["3 in", 77.9],
    ["4 in", 102.3],
  ]),
  series("PVC Schedule 80", "pvc", "a public pipe data page, average bore", [
    ["½ in", 13.4],
    ["¾ in", 18.4],
    ["1 in", 23.7],
    ["1¼ in", 31.9],
    ["1½ in", 37.5],
    ["2 in", 48.6],
    ["3 in", 72.7],
    ["4 in", 96.2],
  ]),
  series("PVC-U drain", "pvc", "EN 1401 / EN 1329, from memory", [
    ["40", 34],
    ["50", 44],
    ["75", 69],
    ["110", 103.6],
  ]),
  series("PVC SDR 21 (Class 200)", "pvc", "ASTM D2241, outside diameter less twice the least wall", [
    ["¾ in", 23.6],
    ["1 in", 30.2],
    ["1¼ in", 38.2],
    ["1½ in", 43.7],
    ["2 in", 54.6],
    ["2½ in", 66.1],
    ["3 in", 80.4],
    ["4 in", 103.4],
  ]),
  series("PVC SDR 26 (Class 160)", "pvc", "ASTM D2241, outside diameter less twice the least wall", [
    ["1 in", 30.4],
    ["1¼ in", 38.9],
    ["1½ in", 44.6],
    ["2 in", 55.7],
    ["2½ in", 67.4],
    ["3 in", 82.0],
    ["4 in", 105.5],
  ]),
  series("PE, SDR 17", "pe", "EN 12201 / ISO 4427, least walls (public brochure)", [
    ["32", 28.0],
    ["40", 35.2],
    ["50", 44.0],
    ["63", 55.4],
    ["75", 66.0],
    ["90", 79.2],
    ["110", 96.8],
  ]),
  series("PE, SDR 11", "pe", "EN 12201 / ISO 4427, least walls (public brochure)", [
    ["20", 16.0],
    ["25", 20.4],
    ["32", 26.0],
    ["40", 32.6],
    ["50", 40.8],
    ["63", 51.4],
    ["75", 61.4],
    ["90", 73.6],
    ["110", 90.0],
  ]),
  series("Hose, by its bore", "hose", "ISO 1307; a hose's tolerance alone moves friction by a fifth, so measure it", [
    ["12.5", 12.5],
    ["16", 16],
    ["19", 19],
    ["20", 20],
    ["25", 25],
    ["31.5", 31.5],
    ["38", 38],
    ["40", 40],
    ["50", 50],
  ]),
  series("Corrugated pond hose", "corrugated", "common practice, no source; barbed ends are 2 to 6 mm narrower", [
    ["¾ in", 20],
    ["1 in", 25],
    ["1¼ in", 32],
    ["1½ in", 40],
    ["2 in", 50],
  ]),
  series("Copper tube", "copper", "EN 1057, from memory", [
    ["15", 13],
    ["18", 16],
    ["22", 20],
    ["28", 26],
    ["35", 32.6],
    ["42", 39.6],
    ["54", 51],
  ]),
  series("Galvanised steel, medium", "galvanised", "EN 10255, medium series, from memory", [
    ["½ in", 16.1],
    ["¾ in", 21.7],
    ["1 in", 27.3],
    ["1¼ in", 36.0],
    ["1½ in", 41.9],
    ["2 in", 53.1],
  ]),
];

/** A series by the name in the table above; a name that is not there is a slip of ours. */
export function seriesNamed(name: string): SizeSeries {
  const found = sizeSeries.find((series) => series.name === name);
  must(found, `the series ${name} is in the table`);
  return found;
}

export const seriesOf = (material: Material): readonly SizeSeries[] =>
  sizeSeries.filter((s) => s.material === material);
