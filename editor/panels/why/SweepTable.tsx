/** The figures of a sweep, row by row. */
import { type JSX, useMemo } from "react";
import { type Section, type SweptField, siteOf, withNumber } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { refusalFigures } from "../../sheet/refusalFigures.ts";
import { formatMoney, type UnitSystem } from "../../sheet/units.ts";
import { showMargin, showQuantity } from "../quantity.ts";
import { wholeFigures } from "../wholeFigures.tsx";
import type { RowsProps } from "./SweepPlot.tsx";
import { sweptText } from "./shownAs.ts";

const verdictWords = {
  geometry: "held by geometry",
  movingPart: "held by a moving part",
  drains: "drains",
  none: "no vessel",
} as const;

interface SweepTableProps extends RowsProps {
  readonly section: Section;
  /** what the drawing has now, in SI; its row is marked */
  readonly asDrawn: number | null;
}

export function SweepTable({ rows, field, section, units, asDrawn }: SweepTableProps): JSX.Element {
  const { currency } = siteOf(section);
  const isDrawn = (value: number): boolean => asDrawn !== null && Math.abs(value - asDrawn) < 1e-6;
  const watched = rows.flatMap((row) => (row.ok && row.velocityIn ? [row.velocityIn] : []))[0];
  const pipe = watched ? section.parts.get(watched) : undefined;
  const refusal = useMemo(() => refusalsIn(section, field, units), [section, field, units]);
  return (
    <div className="scroll">
      <table className="grid-table sweep">
        <caption className="hidden">What becomes of the figures, row by row</caption>
        <thead>
          <tr>
            <th scope="col">{field?.label ?? "size, bore"}</th>
            <th scope="col" className="figure">
              delivered
            </th>
            <th scope="col" className="figure">
              velocity{pipe ? `, ${partName(pipe)}` : ""}
            </th>
            <th scope="col" className="figure">
              margin
            </th>
            <th scope="col" className="figure">
              a year
            </th>
            <th scope="col">in a power cut</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const label = field
              ? sweptText(field.quantity, row.value, units)
              : `${row.name}, ${showQuantity("bore", row.value, units)}`;
            if (!row.ok)
              return (
                <tr key={label} className="gap-row">
                  <th scope="row">{label}</th>
                  <td colSpan={5}>No drawing: {wholeFigures(refusal(row.value) ?? row.reason)}.</td>
                </tr>
              );
            return (
              <tr key={label} className={isDrawn(row.value) ? "chosen" : undefined}>
                <th scope="row">
                  {label}
                  {isDrawn(row.value) ? <span className="hint"> as drawn</span> : null}
                </th>
                <td className="figure">{showQuantity("flow", row.flow, units)}</td>
                <td className="figure">{showQuantity("velocity", row.velocity, units)}</td>
                <td className="figure">{row.margin === null ? "—" : showMargin(row.margin)}</td>
                <td className="figure">{row.cost === null ? "—" : formatMoney(row.cost, currency)}</td>
                <td>
                  <span className={row.verdict === "drains" ? "bad" : row.verdict === "geometry" ? "met" : "unmet"}>
                    {verdictWords[row.verdict]}
                  </span>
                  {row.failures > 0 ? (
                    <span className="bad">, {row.failures === 1 ? "1 failure" : `${row.failures} failures`}</span>
                  ) : null}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

/** Why a value makes no drawing, in the units of the sheet: a row has it as the file would. Each is asked once; rows come
 * one by one, and each draws the table anew. */
function refusalsIn(
  section: Section,
  field: SweptField | null,
  units: UnitSystem,
): (value: number) => string | undefined {
  const known = new Map<number, string | undefined>();
  return (value) => {
    if (!field) return undefined;
    if (!known.has(value)) {
      const made = withNumber(section, field, value, refusalFigures(units));
      known.set(value, made.ok ? undefined : made.error);
    }
    return known.get(value);
  };
}
