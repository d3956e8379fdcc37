/** How the figures follow: the first line stands open, the others a press away. */
import type { JSX } from "react";
import { lineOf, type Worked } from "../../../hydraulics/index.ts";
import "./why.css";
import { wholeFigures } from "../wholeFigures.tsx";

export function WorkedList({ worked }: { readonly worked: readonly Worked[] }): JSX.Element | null {
  const [first, ...others] = worked;
  if (!first) return null;
  return (
    <>
      <div className="worked first">
        <Item worked={first} />
      </div>
      {others.length > 0 ? (
        <details className="worked">
          <summary>How the other figures follow</summary>
          <ul>
            {others.map((each) => (
              <li key={each.what}>
                <Item worked={each} />
              </li>
            ))}
          </ul>
          <p className="law">In metres, seconds and kilograms, whatever the sheet shows.</p>
        </details>
      ) : null}
    </>
  );
}

function Item({ worked }: { readonly worked: Worked }): JSX.Element {
  return (
    <>
      <p className="law">
        {worked.what}: {wholeFigures(worked.law)}
      </p>
      <p className="numbers">{wholeFigures(lineOf(worked))}</p>
      <p className="law">{wholeFigures(worked.source)}</p>
    </>
  );
}
