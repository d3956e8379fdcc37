/** Slips that belong to the sheet as a whole: findings, parts and readings, faults, steps, keys, the drawing. */
import { Fragment, type JSX, useId, useSyncExternalStore } from "react";
import type { Assessment, FaultResult, Finding, Mend, Section } from "../../hydraulics/index.ts";
import { setSite, setTitle } from "../state/actions/setField.ts";
import { stepLabels } from "../state/history.ts";
import { inOrder } from "../state/inOrder.ts";
import { type Played, play, type View } from "../state/view.ts";
import "./gridTables.css";
import "./PlayedChoice.css";
import { partName } from "../sheet/partName.ts";
import { unparted } from "../sheet/units.ts";
import { BeginSlip } from "./begin/BeginSlip.tsx";
import { DrawingsSlip } from "./drawings/DrawingsSlip.tsx";
import { FindingList } from "./FindingList.tsx";
import { GalleryLater } from "./GalleryLater.tsx";
import { HandOutSlip } from "./HandOut.tsx";
import { keyHelp } from "./keyHelp.ts";
import { sentencesOnPage } from "./onPage.ts";
import { kindWords } from "./PartSlip.tsx";
import { readNumber, readQuantity, showNumber, showQuantity, typedQuantity } from "./quantity.ts";
import { readingsOf } from "./readings/readingsOf.ts";
import { TypedInput } from "./TypedInput.tsx";
import { useDesk, useProgram } from "./useDesk.ts";
import { useFocusBack } from "./useFocusBack.ts";
import { useReducedMotion } from "./useReducedMotion.ts";
import { WhySlip } from "./why/WhySlip.tsx";

export interface SheetSlipProps {
  readonly which: NonNullable<View["slip"]>;
  readonly section: Section;
  readonly assessment: Assessment | null;
  readonly mendsOf: (finding: Finding) => readonly Mend[] | null;
}

const titles: Record<NonNullable<View["slip"]>, string> = {
  keys: "Keys and hands",
  findings: "What to look at",
  table: "Parts and readings",
  steps: "Steps",
  drawing: "This drawing",
  faults: "If one thing fails",
  drawings: "Drawings",
  begin: "A new drawing",
  handOut: "Hand out",
  gallery: "Samples",
  rules: "Rules of thumb",
  size: "From a pond to a drawing",
  whatIf: "What if",
  compare: "Two states side by side",
  buy: "What to buy",
  duty: "Pump and system",
};

const bodies: Record<NonNullable<View["slip"]>, (props: SheetSlipProps) => JSX.Element> = {
  keys: Keys,
  findings: Findings,
  table: Table,
  steps: Steps,
  drawing: Drawing,
  faults: Faults,
  drawings: DrawingsSlip,
  begin: BeginSlip,
  handOut: HandOutSlip,
  gallery: GalleryLater,
  rules: WhySlip,
  size: WhySlip,
  whatIf: WhySlip,
  compare: WhySlip,
  buy: WhySlip,
  duty: WhySlip,
};

export function SheetSlip(props: SheetSlipProps): JSX.Element {
  const { desk } = useProgram();
  const Body = bodies[props.which];
  useFocusBack();
  return (
    <>
      <header>
        <h2>{titles[props.which]}</h2>
        <span className="aside" />
        <button
          type="button"
          className="close"
          aria-label="Put the slip away"
          onClick={() => desk.look((view) => ({ ...view, slip: null }))}
        />
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard */}
      <div className="paper" tabIndex={0}>
        <Body {...props} />
      </div>
    </>
  );
}

function Keys(): JSX.Element {
  return (
    <dl className="keys">
      {keyHelp.map(([keys, does]) => [<dt key={`k ${keys}`}>{keys}</dt>, <dd key={`d ${keys}`}>{does}</dd>])}
    </dl>
  );
}

function Findings({ section, assessment, mendsOf }: SheetSlipProps): JSX.Element {
  if (section.parts.size === 0)
    return <p>Nothing is drawn yet. Place a pond, a vessel and a pump, and join them by pipes.</p>;
  if (!assessment) return <p>Being solved.</p>;
  if (assessment.findings.length === 0) return <p>Nothing to look at. Results are estimates, not a licensed design.</p>;
  return <FindingList findings={assessment.findings} section={section} mendsOf={mendsOf} pick />;
}

function Table({ section, assessment }: SheetSlipProps): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  return (
    <table className="grid-table parts">
      <caption className="hidden">Parts of the drawing with what they read</caption>
      <thead>
        <tr>
          <th scope="col">part</th>
          <th scope="col">kind</th>
          <th scope="col">readings</th>
        </tr>
      </thead>
      <tbody>
        {inOrder(section).map((part) => {
          const readings = readingsOf(section, assessment, part, units);
          return (
            <tr key={part.id} data-part={part.id}>
              <th scope="row">
                <button
                  type="button"
                  className="word"
                  onClick={() => desk.look((view) => ({ ...view, selection: new Set([part.id]), slip: null }))}
                >
                  <b>{partName(part)}</b>
                </button>
              </th>
              <td>{kindWords[part.kind]}</td>
              <td>
                {part.kind === "note" ? part.text : readings.aside}
                {readings.lines.map(({ label, value }, k) => (
                  <Fragment key={label}>
                    {k > 0 || readings.aside ? " · " : ""}
                    {label} <b>{unparted(value)}</b>
                  </Fragment>
                ))}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Steps(): JSX.Element {
  const { desk } = useProgram();
  const history = useDesk((state) => state.history);
  const labels = stepLabels(history);
  return (
    <ol>
      {labels.length > 0 ? (
        <li>
          <button type="button" className="word" onClick={() => desk.look((view) => ({ ...view, slip: "compare" }))}>
            Compare one of these with the drawing as it is now
          </button>
        </li>
      ) : null}
      <li>
        <button
          type="button"
          className="word"
          aria-current={history.done.length === 0 ? "step" : undefined}
          onClick={() => desk.goToStep(0)}
        >
          {history.done.length === 0 ? <b>As it was opened</b> : "As it was opened"}
        </button>
      </li>
      {labels.map((label, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a step is its place in the list
        <li key={i}>
          <button
            type="button"
            className="word"
            aria-current={i + 1 === history.done.length ? "step" : undefined}
            onClick={() => desk.goToStep(i + 1)}
          >
            {i + 1 === history.done.length ? <b>{label}</b> : label}
            {i + 1 > history.done.length ? ", taken back" : ""}
          </button>
        </li>
      ))}
    </ol>
  );
}

function Drawing({ section }: SheetSlipProps): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const friction = useId();
  const { site } = section;
  const now = (): Section => desk.get().section;
  const done = (ok: boolean): string | null => (ok ? null : (desk.get().message?.text ?? null));
  const place = (
    label: string,
    key: "groundLevel" | "freeboard" | "waterTemperature",
    quantity: "level" | "length" | "temperature",
    usual: number,
  ): JSX.Element => (
    <TypedInput
      label={label}
      text={site[key] === undefined ? "" : typedQuantity(quantity, site[key], units)}
      placeholder={typedQuantity(quantity, usual, units)}
      commit={(typed) => {
        if (typed.trim() === "")
          return done(
            desk.apply(
              setSite(now(), label, (draft) => {
                delete draft[key];
              }),
            ),
          );
        const read = readQuantity(quantity, typed, units);
        return read.ok
          ? done(
              desk.apply(
                setSite(now(), label, (draft) => {
                  draft[key] = read.value;
                }),
              ),
            )
          : read.error;
      }}
    />
  );
  return (
    <>
      <TypedInput label="Title" text={section.title} commit={(typed) => done(desk.apply(setTitle(now(), typed)))} />
      {place("Ground level", "groundLevel", "level", 0)}
      {place("Freeboard wanted", "freeboard", "length", 0.05)}
      {place("Water temperature", "waterTemperature", "temperature", 15)}
      <div className="field">
        <label htmlFor={friction}>Friction by</label>
        <select
          id={friction}
          value={site.friction ?? "hazen-williams"}
          onChange={(event) =>
            desk.apply(
              setSite(now(), "Friction formula", (draft) => {
                draft.friction = event.target.value as "hazen-williams" | "darcy-weisbach";
              }),
            )
          }
        >
          <option value="hazen-williams">Hazen-Williams</option>
          <option value="darcy-weisbach">Darcy-Weisbach</option>
        </select>
      </div>
      <TypedInput
        label="Price of a kWh"
        text={site.tariff === undefined ? "" : showNumber(site.tariff)}
        placeholder="0.3"
        commit={(typed) => {
          if (typed.trim() === "")
            return done(
              desk.apply(
                setSite(now(), "Price of a kWh", (draft) => {
                  delete draft.tariff;
                }),
              ),
            );
          const read = readNumber(typed);
          return read.ok
            ? done(
                desk.apply(
                  setSite(now(), "Price of a kWh", (draft) => {
                    draft.tariff = read.value;
                  }),
                ),
              )
            : read.error;
        }}
      />
      <TypedInput
        label="Currency"
        text={site.currency ?? ""}
        placeholder="none"
        commit={(typed) =>
          done(
            desk.apply(
              setSite(now(), "Currency", (draft) => {
                draft.currency = typed.trim();
              }),
            ),
          )
        }
      />
      <p className="caution">Results are estimates, not a licensed design.</p>
    </>
  );
}

function Faults({ section, assessment }: SheetSlipProps): JSX.Element {
  const units = useDesk((state) => state.view.units);
  const { desk, results } = useProgram();
  const latest = useSyncExternalStore(results.subscribe, results.get);
  const surveyed = latest?.section === section && latest.surveyed;
  const played = useDesk((state) => state.view.played);
  const still = useReducedMotion();
  if (!assessment || !surveyed) {
    const progress = latest?.section === section ? latest.progress : null;
    return (
      <>
        <p aria-live="polite">
          {progress ? `Tried ${progress.done} of ${progress.total} faults.` : "Trying one fault after the other."}
        </p>
        {progress ? <progress value={progress.done} max={progress.total} aria-label="Faults tried" /> : null}
        <button type="button" className="word" onClick={() => desk.look((view) => ({ ...view, slip: null }))}>
          Stop
        </button>
      </>
    );
  }
  const { faults } = assessment;
  const says = sentencesOnPage(section, units);
  // The slip would lie over what is to be seen; the strip's title leads back to the list.
  const playFault = ({ fault, part }: FaultResult): void =>
    desk.look((view) => ({ ...play(view, { what: "fault", fault, part }, !still), slip: null, selection: new Set() }));
  if (faults.length === 0) return <p>No fault to be tried on this drawing.</p>;
  return (
    <table className="grid-table faults">
      <caption className="hint">Worst first. Press one to see it played on the drawing.</caption>
      <thead>
        <tr>
          <th scope="col">fault</th>
          <th scope="col">outcome</th>
          <th scope="col" className="figure">
            left in the ponds
          </th>
          <th scope="col">why</th>
        </tr>
      </thead>
      <tbody>
        {faults.map((fault) => (
          <tr
            key={`${fault.fault} ${fault.part ?? ""}`}
            className="pressed-whole"
            onClick={() => playFault(fault)}
            aria-current={isPlayed(played, fault) ? "true" : undefined}
          >
            <th scope="row">
              <button type="button" className="word" title="Play it on the drawing">
                <b>{says(fault.title)}</b>
              </button>
            </th>
            <td className="whole">{fault.outcome}</td>
            <td className="figure">{showQuantity("volume", fault.pondLeft, units)}</td>
            <td>{says(fault.reason)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const isPlayed = (played: Played | null, { fault, part }: FaultResult): boolean =>
  played?.what === "fault" && played.fault === fault && played.part === part;
