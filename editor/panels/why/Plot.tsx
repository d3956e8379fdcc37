/** A plot with the sheet's own lines and letters, by uPlot, which comes only when one is drawn. Colours are read from
 * the style sheet whenever it is painted, so that night is night here too. What it shows stands in a table as well. */
import { type JSX, useEffect, useRef } from "react";
import type uPlotType from "uplot";
import type { AlignedData, Options } from "uplot";
import { useDesk } from "../useDesk.ts";
import "./why.css";
import { wholeFigures } from "../wholeFigures.tsx";

/** A custom property of sheet.css. */
export type Ink = "--ink" | "--soft" | "--water" | "--waterline" | "--part" | "--drains" | "--held" | "--hair";

export interface PlotLine {
  readonly label: string;
  /** one a value of x; null leaves a gap */
  readonly values: readonly (number | null)[];
  readonly ink: Ink;
  readonly width?: number;
  readonly dash?: readonly number[];
  /** px; dots instead of, or on, the line */
  readonly dots?: number;
  /** without a line */
  readonly loose?: boolean;
  /** not in the key: the edge of a band */
  readonly silent?: boolean;
  readonly filled?: boolean;
}

export interface PlotBand {
  readonly label: string;
  /** places in `lines` */
  readonly between: readonly [upper: number, lower: number];
  readonly ink: Ink;
}

export interface PlotProps {
  readonly words: string;
  readonly x: readonly number[];
  readonly xLabel: string;
  readonly yLabel: string;
  readonly lines: readonly PlotLine[];
  readonly bands?: readonly PlotBand[];
  readonly height?: number;
  readonly yRange?: readonly [number, number];
  /** names in place of numbers along x */
  readonly xNames?: readonly string[];
}

export function Plot(props: PlotProps): JSX.Element {
  const { words, lines, bands = [], height = 170 } = props;
  const place = useRef<HTMLDivElement>(null);
  const theme = useDesk((state) => state.view.theme);
  // The same picture is not painted again because its slip was.
  const key = JSON.stringify(props);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for `props`; colours are the theme's
  useEffect(() => {
    const element = place.current;
    if (!element) return;
    let plot: uPlotType | null = null;
    let gone = false;
    const draw = async (): Promise<void> => {
      const UPlot = await plotter();
      if (gone) return;
      plot = new UPlot(optionsOf(props, element.clientWidth || 272), dataOf(props), element);
    };
    void draw();
    const watch = new ResizeObserver(() => {
      if (plot && element.clientWidth > 0 && Math.abs(plot.width - element.clientWidth) > 1)
        plot.setSize({ width: element.clientWidth, height });
    });
    watch.observe(element);
    return () => {
      gone = true;
      watch.disconnect();
      plot?.destroy();
    };
  }, [key, theme]);
  return (
    <figure className="plot-figure">
      <div ref={place} className="plot-place" role="img" aria-label={words} style={{ height }} />
      <figcaption className="plot-key" aria-hidden="true">
        {lines.flatMap((line) =>
          line.silent
            ? []
            : [
                <span key={line.label}>
                  <Sample line={line} />
                  {wholeFigures(line.label)}
                </span>,
              ],
        )}
        {bands.map((band) => (
          <span key={band.label}>
            <svg viewBox="0 0 22 8" width="22" height="8" aria-hidden="true">
              <rect width="22" height="8" fill={`var(${band.ink})`} opacity={bandOpacity} />
            </svg>
            {wholeFigures(band.label)}
          </span>
        ))}
      </figcaption>
    </figure>
  );
}

/** uPlot asks for number formats in the browser's language as soon as it is there, and breaks where the browser names
 * one that is no language (`en-US@posix`, on machines without a locale). For that moment it is told another. */
async function plotter(): Promise<typeof uPlotType> {
  const odd = !isLanguage(navigator.language);
  if (odd) Object.defineProperty(navigator, "language", { value: "en-US", configurable: true });
  const [{ default: UPlot }] = await Promise.all([import("uplot"), import("uplot/dist/uPlot.min.css")]);
  if (odd) Reflect.deleteProperty(navigator, "language");
  return UPlot;
}

function isLanguage(tag: string): boolean {
  try {
    return Intl.getCanonicalLocales(tag).length > 0;
  } catch {
    return false;
  }
}

const bandOpacity = 0.28;

function Sample({ line }: { readonly line: PlotLine }): JSX.Element {
  return (
    <svg viewBox="0 0 22 8" width="22" height="8" aria-hidden="true">
      {line.loose ? null : (
        <path
          d="M0 4H22"
          stroke={`var(${line.ink})`}
          strokeWidth={line.width ?? 1.6}
          {...(line.dash ? { strokeDasharray: line.dash.join(" ") } : {})}
        />
      )}
      {line.dots ? <circle cx="11" cy="4" r={Math.min(line.dots / 2, 3.6)} fill={`var(${line.ink})`} /> : null}
    </svg>
  );
}

const dataOf = ({ x, lines }: PlotProps): AlignedData =>
  [[...x], ...lines.map(({ values }) => [...values])] as unknown as AlignedData;

const styleOf = (name: string): string => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
const letters = '11.5px "Barlow Semi Condensed", sans-serif';

function optionsOf(props: PlotProps, width: number): Options {
  const { lines, bands = [], height = 170, xLabel, yLabel, yRange, xNames } = props;
  const axis = (label: string, side: number) => ({
    side,
    stroke: () => styleOf("--soft"),
    font: letters,
    labelFont: letters,
    label,
    labelSize: 15,
    labelGap: 0,
    gap: 4,
    size: side === 2 ? 20 : 40,
    grid: { stroke: () => styleOf("--hair"), width: 0.6 },
    ticks: { show: false },
  });
  return {
    width,
    height,
    padding: [6, 10, 0, 0],
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: false }, ...(yRange ? { y: { range: [yRange[0], yRange[1]] } } : {}) },
    axes: [
      {
        ...axis(xLabel, 2),
        ...(xNames
          ? {
              splits: (plot) => [...(plot.data[0] as number[])],
              values: (_, splits) => splits.map((_at, k) => xNames[k] ?? ""),
            }
          : { values: (_, splits) => splits.map(plain) }),
      },
      { ...axis(yLabel, 3), values: (_, splits) => splits.map(plain) },
    ],
    series: [
      {},
      ...lines.map((line) => ({
        label: line.label,
        spanGaps: false,
        width: line.loose ? 0 : (line.width ?? 1.6),
        stroke: () => styleOf(line.ink),
        ...(line.dash ? { dash: [...line.dash] } : {}),
        points: { show: line.dots !== undefined, size: line.dots ?? 0, fill: () => styleOf(line.ink) },
      })),
    ],
    bands: bands.map(({ between: [upper, lower], ink }) => ({
      series: [upper + 1, lower + 1] as [number, number],
      fill: () => transparent(styleOf(ink)),
    })),
  };
}

/** `#rrggbb` with the band's share of cover. */
const transparent = (colour: string): string =>
  /^#[0-9a-f]{6}$/i.test(colour)
    ? `${colour}${Math.round(bandOpacity * 255)
        .toString(16)
        .padStart(2, "0")}`
    : colour;

/** Digits that count, thousands set apart, and a true minus. */
const plain = (value: number | null): string =>
  value === null ? "" : Number(value.toPrecision(6)).toLocaleString("en-US").replace("-", "−");
