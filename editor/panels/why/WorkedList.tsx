/** How the figures follow: the first line stands open, the others a press away. */
import type { JSX } from "react";
import { lineOf, type Worked } from "../../../hydraulics/index.ts";
import { type Says, sentenceIn } from "../../sheet/sentence.ts";
import "./why.css";
import { useDesk } from "../useDesk.ts";
import { wholeFigures } from "../wholeFigures.tsx";

export function WorkedList({ worked }: { readonly worked: readonly Worked[] }): JSX.Element | null {
  const units = useDesk((state) => state.view.units);
  const [first, ...others] = worked;
  if (!first) return null;
  // The formula and its numbers stay as they are; what is said about them is read like any sentence.
  const says: Says = (text) => sentenceIn(text, units, []);
  const inSi = <p className="law">In metres, seconds and kilograms, whatever the sheet shows.</p>;
  return (
    <>
      <div className="worked first">
        <Item worked={first} says={says} />
        {units === "us" ? inSi : null}
      </div>
      {others.length > 0 ? (
        <details className="worked">
          <summary>How the other figures follow</summary>
          <ul>
            {others.map((each) => (
              <li key={each.what}>
                <Item worked={each} says={says} />
              </li>
            ))}
          </ul>
          {units === "us" ? null : inSi}
        </details>
      ) : null}
    </>
  );
}

function Item({ worked, says }: { readonly worked: Worked; readonly says: Says }): JSX.Element {
  return (
    <>
      <p className="law">
        {worked.what}: {wholeFigures(worked.law)}
      </p>
      <p className="numbers">{wholeFigures(lineOf(worked))}</p>
      <p className="law">{wholeFigures(says(worked.source))}</p>
    </>
  );
}
