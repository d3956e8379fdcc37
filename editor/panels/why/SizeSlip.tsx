/** From a pond's volume to a drawing that can be built, step by step. */
import { type JSX, useMemo, useState } from "react";
import { type Section, siteOf, sizeSeries, usualWish, type Walk, type WalkWish } from "../../../hydraulics/index.ts";
import { sentenceIn } from "../../sheet/sentence.ts";
import { fieldText, formatMoney, type Quantity as Unit } from "../../sheet/units.ts";
import { replaceSection } from "../../state/actions/replaceSection.ts";
import type { Job } from "../../worker/jobs.ts";
import { ChoiceField } from "../ChoiceField.tsx";
import { readNumber, readQuantity, showMargin, showNumber, showQuantity } from "../quantity.ts";
import { TypedInput } from "../TypedInput.tsx";
import { useDesk, useProgram } from "../useDesk.ts";
import { wholeFigures } from "../wholeFigures.tsx";
import { pipePriceIn } from "./pipePriceIn.ts";
import { ruleText } from "./shownAs.ts";
import { useJob } from "./useJob.ts";

/** m or m³: no pond, vessel or lift is smaller */
const least = 0.05;
/** of a figure in a field's words */
const rounding = 0.001;

export function SizeSlip({ section }: { readonly section: Section }): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const [wish, setWish] = useState<WalkWish>(() => ({
    ...usualWish,
    ...pondOf(section),
    tariff: siteOf(section).tariff,
  }));
  const job = useMemo((): Job => ({ kind: "walk", wish }), [wish]);
  const { answers, state, why, stop } = useJob(job);
  const { currency } = siteOf(section);
  const money = (amount: number | null): string => (amount === null ? "—" : formatMoney(amount, currency));
  const found = answers.flatMap((answer) => (answer.kind === "walk" ? [answer.walk] : []))[0] ?? null;
  const quantity = (
    label: string,
    key: "pondVolume" | "vesselHeight" | "lift" | "distance",
    unit: Unit,
    most: number,
  ) => (
    <TypedInput
      label={label}
      text={fieldText(unit, wish[key], units)}
      commit={(typed) => {
        const read = readQuantity(unit, typed, units);
        if (!read.ok) return read.error;
        // What the words name is within, though it is rounded in them.
        if (read.value < least * (1 - rounding) || read.value > most * (1 + rounding))
          return `From ${fieldText(unit, least, units)} to ${fieldText(unit, most, units)}.`;
        setWish((was) => ({ ...was, [key]: read.value }));
        return null;
      }}
    />
  );
  // `si` is what one of the shown number is in the wish's own units.
  const number = (
    label: string,
    key: "vesselShare" | "turnover" | "efficiency" | "tariff" | "pipePrice" | "years",
    { percent = false, least = 0, most = 1e6, hint = "", si = 1 } = {},
  ) => (
    <TypedInput
      label={label}
      text={showNumber(Number((wish[key] / si).toPrecision(12)), percent)}
      {...(hint ? { hint } : {})}
      commit={(typed) => {
        const read = readNumber(typed, percent);
        if (!read.ok) return read.error;
        if (!(read.value >= least && read.value <= most))
          return `From ${showNumber(least, percent)} to ${showNumber(most, percent)}.`;
        setWish((was) => ({ ...was, [key]: read.value * si }));
        return null;
      }}
    />
  );
  const price = pipePriceIn(units);
  const series = (label: string, key: "supplySeries" | "returnSeries") => (
    <ChoiceField
      label={label}
      value={wish[key]}
      options={sizeSeries.map(({ name }) => [name, name])}
      choose={(name) => setWish((was) => ({ ...was, [key]: name }))}
    />
  );
  return (
    <>
      <div className="choose">
        {quantity("Pond holds", "pondVolume", "volume", 5000)}
        {number("Vessel, share of it", "vesselShare", { percent: true, least: 0.02, most: 1 })}
        {number("Vessel volumes an hour", "turnover", { least: 0.2, most: 30 })}
        {quantity("Vessel is high", "vesselHeight", "length", 3)}
        {quantity("Its base over the pond's water", "lift", "length", 10)}
        {quantity("Its distance from the pond", "distance", "length", 100)}
        {series("Supply in", "supplySeries")}
        {series("Return in", "returnSeries")}
        {number("Pump, wire to water", "efficiency", {
          percent: true,
          least: 0.02,
          most: 0.8,
          hint: "Assumed: small submersibles reach 5 to 25 %, from memory.",
        })}
        {number("Price of a kWh", "tariff", { most: 1e5 })}
        {number(price.label, "pipePrice", { most: 1e5, hint: price.hint, si: price.si })}
        {number("Counted over years", "years", { least: 1, most: 50 })}
      </div>
      {state === "running" ? (
        <div className="acts" aria-live="polite">
          <span>Being solved, size by size.</span>
          <button type="button" className="word" onClick={stop}>
            Stop
          </button>
        </div>
      ) : null}
      {state === "broken" ? <p className="trouble">That did not work: {why}.</p> : null}
      {found ? <Steps found={found} money={money} take={take} /> : null}
    </>
  );

  function take(next: Section): void {
    const before = desk.get().section;
    if (
      desk.apply(
        replaceSection(before, "Sized by the rules of thumb", { ...next, site: { ...before.site, ...next.site } }),
      )
    )
      desk.look((view) => ({ ...view, slip: null, camera: null, fitted: view.fitted + 1 }));
  }
}

/** What this sheet's pond says of itself. */
function pondOf(section: Section): Partial<WalkWish> {
  for (const part of section.parts.values())
    if (part.kind === "pond" && !part.sideSlope) {
      const pondVolume = Number((part.width * part.length * (part.waterLevel - part.bedLevel)).toFixed(2));
      return pondVolume >= 0.05 ? { pondVolume } : {};
    }
  return {};
}

interface StepsProps {
  readonly found: Walk;
  readonly money: (amount: number | null) => string;
  readonly take: (section: Section) => void;
}

function Steps({ found, money, take }: StepsProps): JSX.Element {
  const units = useDesk((state) => state.view.units);
  const { supply, back, box } = found;
  const flow = (value: number): string => showQuantity("flow", value, units);
  const head = (value: number | null): string => (value === null ? "—" : showQuantity("head", value, units));
  return (
    <>
      <dl className="readings">
        <dt>Vessel, gross</dt>
        <dd>{wholeFigures(showQuantity("volume", found.vesselVolume, units))}</dd>
        <dt>as a square of</dt>
        <dd>{wholeFigures(showQuantity("length", found.vesselSide, units))}</dd>
        <dt>Flow</dt>
        <dd>{wholeFigures(flow(found.flow))}</dd>
        <dt>{wholeFigures(sentenceIn("Upflow (water works clear silt at 0.3 to 1.5 m/h)", units, []))}</dt>
        <dd>{wholeFigures(ruleText("upflow", found.upflow, units))}</dd>
        <dt>Pump to look for: its curve passes</dt>
        <dd>{supply ? wholeFigures(`${flow(found.flow)} at ${head(supply.head)}`) : "—"}</dd>
        <dt>on a box that states only the greatest, about (assumption)</dt>
        <dd>{box ? wholeFigures(`${flow(box.maxFlow)} and ${head(box.maxHead)}`) : "—"}</dd>
        <dt>Supply, the cheapest over the years</dt>
        <dd>{supply ? supply.size : "none will do"}</dd>
        <dt>Return, the smallest with room to spare</dt>
        <dd>{back ? back.size : supply ? "none will do" : "—"}</dd>
      </dl>
      <div className="acts">
        <button
          type="button"
          className="press"
          disabled={!found.section}
          onClick={() => found.section && take(found.section)}
        >
          Put it on the sheet
        </button>
        <span className="hint">One step: Undo brings the drawing back that lies here now.</span>
      </div>
      <h3>Supply</h3>
      <div className="scroll">
        <table className="grid-table">
          <caption className="hidden">Sizes of the supply with head, velocity, watts and cost</caption>
          <thead>
            <tr>
              <th scope="col">size</th>
              {["velocity", "head needed", "draws about", "a year", "over the years"].map((word) => (
                <th scope="col" className="figure" key={word}>
                  {word}
                </th>
              ))}
              <th scope="col">rules</th>
            </tr>
          </thead>
          <tbody>
            {found.supplies.map((choice) => (
              <tr key={choice.size} className={choice === supply ? "chosen" : ""}>
                <th scope="row">{choice.size}</th>
                <td className="figure">{showQuantity("velocity", choice.velocity, units)}</td>
                <td className="figure">{head(choice.head)}</td>
                <td className="figure">{choice.watts === null ? "—" : showQuantity("power", choice.watts, units)}</td>
                <td className="figure">{money(choice.yearlyCost)}</td>
                <td className="figure">{money(choice.cost)}</td>
                <td className={choice.meets ? "met" : "unmet"}>
                  {choice === supply ? "taken" : choice.meets ? "met" : wholeFigures(sentenceIn(choice.why, units, []))}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {found.returns.length > 0 ? (
        <>
          <h3>Return</h3>
          <div className="scroll">
            <table className="grid-table">
              <caption className="hidden">Sizes of the return with what they carry</caption>
              <thead>
                <tr>
                  <th scope="col">size</th>
                  <th scope="col" className="figure">
                    carries, times the flow
                  </th>
                  <th scope="col">rules</th>
                </tr>
              </thead>
              <tbody>
                {found.returns.map((choice) => (
                  <tr key={choice.size} className={choice === back ? "chosen" : ""}>
                    <th scope="row">{choice.size}</th>
                    <td className="figure">{choice.margin === null ? "—" : showMargin(choice.margin)}</td>
                    <td className={choice.meets ? "met" : "unmet"}>
                      {choice === back
                        ? "taken"
                        : choice.meets
                          ? "met"
                          : wholeFigures(sentenceIn(choice.why, units, []))}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </>
      ) : null}
    </>
  );
}
