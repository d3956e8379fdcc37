/** One line of a slip: a label, a value that may be typed or chosen, and what is wrong with what was typed. */
import { type JSX, useId, useState } from "react";
import type { Part, PartId, Section } from "../../hydraulics/index.ts";
import { idInWords, partName } from "../sheet/partName.ts";
import { sentenceIn } from "../sheet/sentence.ts";
import { setField } from "../state/actions/setField.ts";
import { BendsField } from "./BendsField.tsx";
import { CurveField } from "./CurveField.tsx";
import { EndField } from "./EndField.tsx";
import { FittingsField } from "./FittingsField.tsx";
import type { ChoiceField, Field, NumberField, QuantityField, TextField } from "./fields/field.ts";
import { MediaField } from "./MediaField.tsx";
import { readNumber, readQuantity, showNumber, typedQuantity } from "./quantity.ts";
import { SizeField } from "./SizeField.tsx";
import { TypedInput } from "./TypedInput.tsx";
import { takeRefusal } from "./takeRefusal.ts";
import { tellPushed } from "./tellPushed.ts";
import { tellSettled } from "./tellSettled.ts";
import { useDesk, useProgram } from "./useDesk.ts";

export interface FieldProps<F> {
  readonly field: F;
  /** the parts that are changed together; the first speaks for them */
  readonly parts: readonly Part[];
  readonly section: Section;
}

export function FieldLine({ field, parts, section }: FieldProps<Field<Part>>): JSX.Element | null {
  const first = parts[0];
  if (!first || (field.shownFor && !parts.every((part) => field.shownFor?.(part)))) return null;
  switch (field.kind) {
    case "quantity":
    case "number":
      return <TypedLine field={field} parts={parts} section={section} />;
    case "text":
      return <TextLine field={field} parts={parts} />;
    case "choice":
      return <ChoiceLine field={field} parts={parts} section={section} />;
    case "curve":
      return parts.length === 1 && first.kind === "pump" ? <CurveField pump={first} /> : null;
    case "media":
      return parts.length === 1 && first.kind === "vessel" ? <MediaField vessel={first} /> : null;
    case "fittings":
      return parts.length === 1 && first.kind === "pipe" ? <FittingsField pipe={first} /> : null;
    case "end":
      return parts.length === 1 && first.kind === "pipe" && field.which ? (
        <EndField pipe={first} which={field.which} section={section} />
      ) : null;
    case "bends":
      return parts.length === 1 && first.kind === "pipe" ? <BendsField pipe={first} section={section} /> : null;
    case "size":
      return <SizeField parts={parts} />;
  }
}

const idsOf = (parts: readonly Part[]): readonly PartId[] => parts.map((part) => part.id);
const stepName = (label: string, parts: readonly Part[]): string =>
  parts.length === 1 ? `${label} of ${partName(parts[0] as Part)}` : `${label} of ${parts.length} parts`;

function TypedLine({ field, parts, section }: FieldProps<QuantityField<Part> | NumberField<Part>>): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const first = parts[0] as Part;
  const show = (value: number): string =>
    field.kind === "quantity" ? typedQuantity(field.quantity, value, units) : showNumber(value, field.percent);
  const values = parts.map((part) => field.get(part));
  const same = values.every((value) => value === values[0]);
  const value = values[0];
  const absent = field.optional?.(first, section);
  const text = same && value !== undefined ? show(value) : "";
  const placeholder = !same ? "various" : absent === undefined ? "" : absent === null ? "not given" : show(absent);
  const commit = (typed: string): string | null => {
    if (typed.trim() === "" && field.optional) {
      return applied(
        desk.apply(
          setField(desk.get().section, idsOf(parts), stepName(field.label, parts), (part) =>
            field.set(part, undefined),
          ),
        ),
      );
    }
    const read =
      field.kind === "quantity" ? readQuantity(field.quantity, typed, units) : readNumber(typed, field.percent);
    if (!read.ok) return read.error;
    const { section: before } = desk.get();
    const done = desk.apply(
      setField(before, idsOf(parts), stepName(field.label, parts), (part) => field.set(part, read.value)),
    );
    if (done) tellPushed(desk, before, idsOf(parts));
    const now = desk.get().section.parts.get(first.id);
    if (done && now) tellSettled(desk, { label: field.label, wanted: read.value, kept: field.get(now), show });
    return applied(done);
  };
  const applied = (done: boolean): string | null => (done ? null : takeRefusal(desk));
  return (
    <TypedInput
      label={field.label}
      text={text}
      placeholder={placeholder}
      commit={commit}
      {...(field.hint ? { hint: sentenceIn(field.hint(first, section), units, []) } : {})}
    />
  );
}

function TextLine({ field, parts }: Omit<FieldProps<TextField<Part>>, "section">): JSX.Element {
  const { desk } = useProgram();
  const id = useId();
  const value = field.get(parts[0] as Part);
  const [typed, setTyped] = useState<string | null>(null);
  const keep = (): void => {
    if (typed !== null && typed !== value)
      desk.apply(
        setField(desk.get().section, idsOf(parts), stepName(field.label, parts), (part) => field.set(part, typed)),
      );
    setTyped(null);
  };
  const shared = {
    id,
    value: typed ?? value,
    maxLength: 400,
    onChange: (event: { target: { value: string } }) => setTyped(event.target.value),
    onBlur: keep,
  };
  return (
    <div className="field">
      <label htmlFor={id}>{field.label}</label>
      {field.long ? (
        <textarea {...shared} rows={3} />
      ) : (
        <input
          {...shared}
          autoComplete="off"
          placeholder={parts.length > 1 ? "various" : idInWords((parts[0] as Part).id)}
          onKeyDown={(event) => event.key === "Enter" && keep()}
        />
      )}
    </div>
  );
}

function ChoiceLine({ field, parts, section }: FieldProps<ChoiceField<Part>>): JSX.Element {
  const { desk } = useProgram();
  const id = useId();
  const first = parts[0] as Part;
  const options = field.options(first, section);
  const value = field.get(first);
  return (
    <div className="field">
      <label htmlFor={id}>{field.label}</label>
      <select
        id={id}
        value={value}
        onChange={(event) =>
          desk.apply(
            setField(desk.get().section, idsOf(parts), stepName(field.label, parts), (part) =>
              field.set(part, event.target.value, desk.get().section),
            ),
          )
        }
      >
        {options.map(([option, word]) => (
          <option key={option} value={option}>
            {word}
          </option>
        ))}
      </select>
      {field.hint ? <p className="hint">{field.hint(first, section)}</p> : null}
    </div>
  );
}
