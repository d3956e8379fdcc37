/** A new drawing from five questions: what is not decided is suggested, and what comes out is said before it is drawn.
 * An empty sheet is one press away as well. */
import { type JSX, useEffect, useMemo, useRef, useState } from "react";
import { type AnswerKey, answerBounds, type LayoutAnswers, suggestAnswers } from "../../../hydraulics/index.ts";
import { sentenceIn } from "../../sheet/sentence.ts";
import type { Quantity, UnitSystem } from "../../sheet/units.ts";
import { emptySection } from "../../state/emptySection.ts";
import { KeptWords } from "../KeptWords.tsx";
import { openNew } from "../openNew.ts";
import { exactQuantity, readQuantity, typedQuantity } from "../quantity.ts";
import { TypedInput } from "../TypedInput.tsx";
import { useDesk, useProgram } from "../useDesk.ts";
import "./begin.css";
import { wholeFigures } from "../wholeFigures.tsx";
import { layoutWords } from "./layoutWords.ts";
import { useLayout } from "./useLayout.ts";

interface Question {
  readonly asks: string;
  readonly blanks: readonly { readonly key: AnswerKey; readonly label: string; readonly quantity: Quantity }[];
}

const questions: readonly Question[] = [
  {
    asks: "How large is the pond?",
    blanks: [{ key: "pondVolume", label: "Water in the pond", quantity: "volume" }],
  },
  {
    asks: "How large is the filter vessel?",
    blanks: [{ key: "vesselVolume", label: "To its rim, stone included", quantity: "volume" }],
  },
  {
    asks: "How high does it stand?",
    blanks: [{ key: "baseHeight", label: "Its base over the ground", quantity: "length" }],
  },
  {
    asks: "How far from the pond?",
    blanks: [{ key: "distance", label: "From edge to vessel", quantity: "length" }],
  },
  {
    asks: "Which pump?",
    blanks: [
      { key: "pumpFlow", label: "Greatest flow on its box", quantity: "flow" },
      { key: "pumpLift", label: "Greatest lift on its box", quantity: "head" },
    ],
  },
];

export function BeginSlip(): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const [decided, setDecided] = useState<Partial<LayoutAnswers>>({});
  const answers = useMemo(() => roundAnswers(decided, units), [decided, units]);
  const laid = useLayout(answers);
  const form = useRef<HTMLFormElement>(null);
  // Where a keyboard would not come up over the sheet, the first answer can be typed at once.
  useEffect(() => {
    if (matchMedia("(pointer: fine)").matches) form.current?.querySelector("input")?.focus();
  }, []);
  // Pressed while the last answer is still being laid out, it is drawn as soon as that is done.
  const [wanted, setWanted] = useState(false);
  useEffect(() => {
    if (!wanted || laid === null) return;
    setWanted(false);
    // Without its volume: a title stays as it is when other units are shown.
    if (laid.ok) openNew(desk, { ...laid.section, title: "Pond and gravel filter" });
  }, [wanted, laid, desk]);
  const take = (key: AnswerKey, quantity: Quantity, typed: string): string | null => {
    const read = readQuantity(quantity, typed, units);
    if (!read.ok) return read.error;
    const { least, most, says } = answerBounds[key];
    if (read.value < least || read.value > most) return sentenceIn(says, units, []);
    setDecided((before) => ({ ...before, [key]: read.value }));
    return null;
  };
  return (
    <form
      ref={form}
      className="begin"
      onSubmit={(event) => {
        event.preventDefault();
        setWanted(true);
      }}
    >
      <ol>
        {questions.map(({ asks, blanks }) => (
          <li key={asks}>
            <span className="asks">{asks}</span>
            {blanks.map(({ key, label, quantity }) => (
              <TypedInput
                key={key}
                label={label}
                text={typedQuantity(quantity, answers[key], units)}
                commit={(typed) => take(key, quantity, typed)}
              />
            ))}
          </li>
        ))}
      </ol>
      <p className={laid && !laid.ok ? "comes refusal" : "comes"} role="status">
        {wholeFigures(
          laid === null
            ? "Being laid out."
            : laid.ok
              ? layoutWords(laid, units)
              : sentenceIn(laid.refusal.why, units, []),
        )}
      </p>
      <footer>
        <button type="submit" className="press" disabled={laid !== null && !laid.ok}>
          Draw it
        </button>
        <button type="button" className="word" onClick={() => openNew(desk, emptySection)}>
          An empty sheet
        </button>
      </footer>
      <p className="caution">
        An estimate to change from, not a licensed design. <KeptWords />
      </p>
    </form>
  );
}

/** What is not decided is suggested, in round figures of the units shown: one after the other, for what is suggested
 * for the lift follows from the height. */
function roundAnswers(decided: Partial<LayoutAnswers>, units: UnitSystem): LayoutAnswers {
  let known: Partial<LayoutAnswers> = { ...decided, sold: units === "us" ? "inch" : "metric" };
  for (const { key, quantity } of inOrderOfSuggestion)
    known = { [key]: inRound(quantity, suggestAnswers(known)[key], units), ...known };
  return suggestAnswers(known);
}

const blanks = questions.flatMap((question) => question.blanks);
/** The vessel is sized by the pump's flow. */
const inOrderOfSuggestion = [
  ...blanks.filter(({ key }) => key !== "vesselVolume"),
  ...blanks.filter(({ key }) => key === "vesselVolume"),
];

/** To two figures, as it would be typed. */
function inRound(quantity: Quantity, value: number, units: UnitSystem): number {
  const [figure = "", ...unit] = exactQuantity(quantity, value, units).split(" ");
  const read = readQuantity(quantity, [Number(Number(figure).toPrecision(2)), ...unit].join(" "), units);
  return read.ok ? read.value : value;
}
