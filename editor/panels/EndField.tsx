import type { JSX } from "react";
import { useId } from "react";
import {
  lineLength,
  type Mouth,
  type PartId,
  type Pipe,
  type PipeEnd,
  pipeLine,
  type Section,
} from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { attachPipeEnd } from "../state/actions/attachPipeEnd.ts";
import { mouthOverRim, openAt } from "../state/actions/endAt.ts";
import { setPipeEnd } from "../state/actions/movePipeEnd.ts";
import { even, round } from "../state/actions/rounded.ts";
import { bodiesOf, bodyOf, inOrder } from "../state/inOrder.ts";
import type { Quantity } from "./fields/field.ts";
import { mouthWords } from "./fields/pipeWords.ts";
import { readQuantity, typedQuantity } from "./quantity.ts";
import { TypedInput } from "./TypedInput.tsx";
import { takeRefusal } from "./takeRefusal.ts";
import { tellSettled } from "./tellSettled.ts";
import { useDesk, useProgram } from "./useDesk.ts";

/** Where one end of a pipe is: what it is in, and where there. A pipe can be attached by keyboard alone. */
export function EndField({
  pipe,
  which,
  section,
}: {
  readonly pipe: Pipe;
  readonly which: "from" | "to";
  readonly section: Section;
}): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const id = useId();
  const end = pipe[which];
  const [x, z] = pipeLine(section, pipe).at(which === "from" ? 0 : -1) ?? [0, 0];
  const set = (next: PipeEnd): string | null =>
    desk.apply(setPipeEnd(desk.get().section, pipe.id, which, next)) ? null : takeRefusal(desk);
  const attach = (next: PipeEnd): void => void desk.apply(attachPipeEnd(desk.get().section, pipe.id, which, next));
  const now = (of: "x" | "z" | "at"): number | undefined => {
    const { section: after } = desk.get();
    const moved = after.parts.get(pipe.id);
    if (moved?.kind !== "pipe") return undefined;
    const there = moved[which];
    if (of === "at") return "pipe" in there ? there.at : undefined;
    return pipeLine(after, moved).at(which === "from" ? 0 : -1)?.[of === "x" ? 0 : 1];
  };
  const typed = (
    label: string,
    quantity: Quantity,
    of: "x" | "z" | "at",
    value: number,
    make: (value: number) => PipeEnd,
  ): JSX.Element => (
    <TypedInput
      label={label}
      text={typedQuantity(quantity, value, units)}
      commit={(text) => {
        const read = readQuantity(quantity, text, units);
        if (!read.ok) return read.error;
        const trouble = set(make(read.value));
        const show = (each: number): string => typedQuantity(quantity, each, units);
        if (trouble === null) tellSettled(desk, { label, wanted: read.value, kept: now(of), show });
        return trouble;
      }}
    />
  );
  const choose = (value: string): void => {
    if (value === "air") set(openAt([round(x), round(z)]));
    const part = section.parts.get(value as PartId);
    if (part?.kind === "pump") attach({ part: part.id });
    if (part?.kind === "pond")
      attach({
        part: part.id,
        x: even(inside(part.x, part.width, round(x))),
        z: even(Math.min(Math.max(round(z), part.bedLevel), part.rimLevel + mouthOverRim)),
        mouth: "down",
      });
    if (part?.kind === "vessel")
      attach({
        part: part.id,
        z: even(Math.min(Math.max(round(z), part.baseLevel + 0.05), part.rimLevel - 0.05)),
        mouth: "side",
      });
    if (part?.kind === "pipe") attach({ pipe: part.id, at: round(lineLength(pipeLine(section, part)) / 2) });
  };
  const body = "part" in end ? bodyOf(section, end.part) : undefined;
  return (
    <fieldset className="table-field">
      <legend>{which === "from" ? "From" : "To"}</legend>
      <div className="field">
        <label htmlFor={id}>{which === "from" ? "Begins in" : "Ends in"}</label>
        <select
          id={id}
          value={"part" in end ? end.part : "pipe" in end ? end.pipe : "air"}
          onChange={(event) => choose(event.target.value)}
        >
          <option value="air">the air, open</option>
          {inOrder(section)
            .filter((part) => part.kind === "pump" && (which === "from" || part.in === undefined))
            .map((part) => (
              <option key={part.id} value={part.id}>
                {partName(part)}
              </option>
            ))}
          {bodiesOf(section).map((part) => (
            <option key={part.id} value={part.id}>
              {partName(part)}
            </option>
          ))}
          {inOrder(section)
            .filter((part) => part.kind === "pipe" && part.id !== pipe.id)
            .map((part) => (
              <option key={part.id} value={part.id}>
                a tee in {partName(part)}
              </option>
            ))}
        </select>
      </div>
      {"open" in end ? (
        <>
          {typed("Level", "level", "z", end.z, (value) => ({ ...end, z: value }))}
          {typed("Place", "place", "x", end.x, (value) => ({ ...end, x: value }))}
        </>
      ) : null}
      {"pipe" in end ? typed("Tee, from its start", "length", "at", end.at, (value) => ({ ...end, at: value })) : null}
      {body && "part" in end ? (
        <>
          {typed("Level", "level", "z", z, (value) => ({ ...end, z: value }))}
          <MouthChoice end={end} set={set} x={x} />
          {end.mouth === "down" || end.mouth === "up"
            ? typed("Place", "place", "x", x, (value) => ({ ...end, x: value }))
            : null}
        </>
      ) : null}
    </fieldset>
  );
}

function MouthChoice({
  end,
  set,
  x,
}: {
  readonly end: Extract<PipeEnd, { part: PartId }>;
  readonly set: (end: PipeEnd) => void;
  readonly x: number;
}): JSX.Element {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>Mouth</label>
      <select
        id={id}
        value={end.mouth ?? "side"}
        onChange={(event) => {
          const mouth = event.target.value as Mouth;
          const { x: was, ...rest } = end;
          set(mouth === "side" ? { ...rest, mouth } : { ...rest, x: was ?? x, mouth });
        }}
      >
        {mouthWords.map(([value, word]) => (
          <option key={value} value={value}>
            {word}
          </option>
        ))}
      </select>
    </div>
  );
}

const inside = (left: number, width: number, x: number): number =>
  Math.min(Math.max(x, left + 0.1), left + Math.max(width - 0.1, 0.1));
