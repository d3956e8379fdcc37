import { type JSX, useId } from "react";

export interface ChoiceFieldProps {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [value: string, word: string])[];
  readonly choose: (value: string) => void;
}

export function ChoiceField({ label, value, options, choose }: ChoiceFieldProps): JSX.Element {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => choose(event.target.value)}>
        {options.map(([option, word]) => (
          <option key={option} value={option}>
            {word}
          </option>
        ))}
      </select>
    </div>
  );
}
