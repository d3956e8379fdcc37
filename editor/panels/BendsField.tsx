import type { JSX } from "react";
import { lineLength, type Pipe, type Point, pipeLine, type Section } from "../../hydraulics/index.ts";
import { addBend } from "../state/actions/addBend.ts";
import { movePipeBend } from "../state/actions/movePipeBend.ts";
import { removeBend } from "../state/actions/removeBend.ts";
import type { Changed } from "../state/edit.ts";
import { OutTable } from "./OutTable.tsx";
import { readQuantity, typedQuantity } from "./quantity.ts";
import { TypedInput } from "./TypedInput.tsx";
import { takeRefusal } from "./takeRefusal.ts";
import { useDesk, useProgram } from "./useDesk.ts";

/** Where a pipe turns, from its start on. A pipe can be led by keyboard alone. */
export function BendsField({ pipe, section }: { readonly pipe: Pipe; readonly section: Section }): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const bends = pipe.route ?? [];
  const apply = (changed: Changed): string | null => (desk.apply(changed) ? null : takeRefusal(desk));
  const cell = (index: number, axis: 0 | 1): JSX.Element => {
    const [quantity, name] = axis === 0 ? (["place", "Place"] as const) : (["level", "Level"] as const);
    return (
      <TypedInput
        bare
        label={`${name} of bend ${index + 1}`}
        text={typedQuantity(quantity, bends[index]?.[axis] ?? 0, units)}
        commit={(typed) => {
          const read = readQuantity(quantity, typed, units);
          if (!read.ok) return read.error;
          const [x, z] = bends[index] as Point;
          const to: Point = axis === 0 ? [read.value, z] : [x, read.value];
          return apply(movePipeBend(desk.get().section, pipe.id, index, to));
        }}
      />
    );
  };
  return (
    <fieldset className="table-field">
      <legend>Bends, from its start</legend>
      {bends.length > 0 ? (
        <OutTable
          heads={["place", "level"]}
          rows={bends.map((_, index) => ({
            cells: [cell(index, 0), cell(index, 1)],
            out: {
              label: `Take out bend ${index + 1}`,
              act: () => void desk.apply(removeBend(desk.get().section, pipe.id, index)),
            },
          }))}
        />
      ) : (
        <p className="hint">None: straight from end to end.</p>
      )}
      <button
        type="button"
        className="word"
        onClick={() => void desk.apply(addBend(desk.get().section, pipe.id, inLongestStretch(pipeLine(section, pipe))))}
      >
        Add a bend
      </button>
    </fieldset>
  );
}

/** The middle of the longest straight piece of a line. */
function inLongestStretch(line: readonly Point[]): Point {
  const stretches = line.slice(1).map((to, i) => [line[i] as Point, to] as const);
  const [longest] = stretches.sort((a, b) => lineLength(b) - lineLength(a));
  if (!longest) return line[0] ?? [0, 0];
  const [[ax, az], [bx, bz]] = longest;
  return [(ax + bx) / 2, (az + bz) / 2];
}
