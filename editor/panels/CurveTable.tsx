import { type JSX, useEffect, useReducer, useRef } from "react";
import type { PartId } from "../../hydraulics/index.ts";
import type { UnitSystem } from "../sheet/units.ts";
import { setCurve } from "../state/actions/setCurve.ts";
import { CurveCell } from "./CurveCell.tsx";
import { curvePasted } from "./curvePasted.ts";
import {
  addPoint,
  type Curve,
  type CurveRows,
  curveOf,
  dropWaiting,
  type Holds,
  openedCurve,
  type Side,
  takeOutPoint,
  typeFigure,
  typeTable,
  type Waiting,
} from "./curveTyping.ts";
import { cellName, whoMadeWay, whyWaiting } from "./curveWords.ts";
import { OutTable } from "./OutTable.tsx";
import { readQuantity, typedQuantity } from "./quantity.ts";
import { useDesk, useLatest, useProgram } from "./useDesk.ts";

const quantities = ["flow", "head"] as const;

/** The maker's points, typed in any order. What was typed is remembered as long as the table is open, by the curve that
 * came of it: so a step that is taken back, or done again, finds what was typed by then. */
export function CurveTable({
  id,
  curve,
  isEntered,
}: {
  readonly id: PartId;
  readonly curve: Curve;
  /** whether the cursor comes to its first figure as it opens */
  readonly isEntered: boolean;
}): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const memory = useRef<Map<string, CurveRows>>(new Map());
  const [, drawAgain] = useReducer((count: number) => count + 1, 0);
  const rowsAt = (at: Curve): CurveRows => memory.current.get(JSON.stringify(at)) ?? openedCurve(at);
  const curveNow = (): Curve => {
    const pump = desk.get().section.parts.get(id);
    return pump?.kind === "pump" ? (pump.curve ?? curve) : curve;
  };
  const holds: Holds = (wanted) => setCurve(desk.get().section, id, "Curve", wanted).ok;
  const keep = (label: string, rows: CurveRows): void => {
    const wanted = curveOf(rows);
    if (!wanted) return;
    memory.current.set(JSON.stringify(wanted), rows);
    desk.apply(setCurve(desk.get().section, id, label, wanted));
    // Where a figure waits, the drawing is as it was.
    drawAgain();
  };

  const rows = rowsAt(curve);
  const shown = (row: number, side: Side, at: Curve): string =>
    typedQuantity(quantities[side], at[row]?.[side] ?? 0, units);
  const read = (row: number, side: Side, typed: string): Waiting => {
    const now = curveNow();
    // A figure is shown with the digits that matter: typed as it is shown, it is the one that stands.
    if (now[row] && typed.trim() === shown(row, side, now).trim()) return { text: typed, units, value: now[row][side] };
    const figure = readQuantity(quantities[side], typed, units);
    return { text: typed, units, value: figure.ok ? figure.value : null };
  };
  const commit = (row: number, side: Side, typed: string): void =>
    keep("Curve", typeFigure(rowsAt(curveNow()), row, side, read(row, side, typed), holds));
  const paste = (from: number, side: Side, text: string): boolean => {
    const pasted = curvePasted(text);
    if (!pasted) return false;
    const table = pasted.map((cells, k): readonly [Waiting | null, Waiting | null] => {
      const [first, second] = cells;
      if (second !== undefined) return [read(from + k, 0, first), read(from + k, 1, second)];
      return side === 0 ? [read(from + k, 0, first), null] : [null, read(from + k, 1, first)];
    });
    keep("Curve", typeTable(rowsAt(curveNow()), from, table, holds));
    return true;
  };
  const whyAt = (at: Curve, row: number, side: Side): string | null => {
    const { section, view } = desk.get();
    return whyWaiting(rowsAt(at), row, side, view.units, (value) => {
      const alone = at.map((point, i): Curve[number] =>
        i !== row ? point : side === 0 ? [value, point[1]] : [point[0], value],
      );
      const changed = setCurve(section, id, "Curve", alone);
      return changed.ok ? "This is too near to another point." : (changed.whyIn?.(view.units) ?? changed.why);
    });
  };
  // The table goes with its slip, and with it the figures that waited and why.
  const leave = useLatest((): void => {
    const pump = desk.get().section.parts.get(id);
    if (pump?.kind !== "pump" || !pump.curve) return;
    for (const row of pump.curve.keys()) {
      for (const side of [0, 1] as const) {
        const why = whyAt(pump.curve, row, side);
        if (why === null) continue;
        const named = why.includes(cellName(row, side)) ? why : `${cellName(row, side)}: ${why}`;
        return desk.say({ text: named, tone: "refusal" });
      }
    }
  });
  useEffect(() => () => leave.current(), [leave]);
  const cell = (row: number, side: Side): JSX.Element => {
    const waits = rows[row]?.waiting[side] ?? null;
    return (
      <CurveCell
        label={cellName(row, side)}
        text={waits ? waitingText(waits, side, units) : shown(row, side, curve)}
        trouble={whyAt(curve, row, side)}
        isEntered={isEntered && row === 0 && side === 0}
        commit={(typed) => commit(row, side, typed)}
        paste={(text) => paste(row, side, text)}
        drop={() => keep("Curve", dropWaiting(rowsAt(curveNow()), row, side))}
      />
    );
  };
  const madeWay = whoMadeWay(rows);
  return (
    <>
      <OutTable
        heads={["flow", "head"]}
        rows={curve.map((_, row) => ({
          cells: [cell(row, 0), cell(row, 1)],
          out:
            curve.length > 2
              ? {
                  label: `Take out point ${row + 1}`,
                  act: () => keep("Take a point out of the curve", takeOutPoint(rowsAt(curveNow()), row, holds)),
                }
              : null,
        }))}
      />
      {madeWay ? <p className="hint">{madeWay}</p> : null}
      <button
        type="button"
        className="word"
        onClick={() => keep("Add a point to the curve", addPoint(rowsAt(curveNow())))}
      >
        Add a point
      </button>
    </>
  );
}

/** As it was typed, but where other units came to be shown since: the same digits would be another figure there. */
const waitingText = ({ text, value, units: typedIn }: Waiting, side: Side, units: UnitSystem): string =>
  value === null || typedIn === units ? text : typedQuantity(quantities[side], value, units);
