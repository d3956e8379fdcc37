/** The pump's plot on a slip of its own, which stays while parts are pulled about: the point slides with the hand. */
import { type JSX, useSyncExternalStore } from "react";
import type { Pump, Section } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { inOrder } from "../../state/inOrder.ts";
import { ChoiceField } from "../ChoiceField.tsx";
import { DutyPlot } from "../DutyPlot.tsx";
import { showQuantity } from "../quantity.ts";
import { useDesk, useProgram } from "../useDesk.ts";
import { wholeFigures } from "../wholeFigures.tsx";

export function DutySlip({ section }: { readonly section: Section }): JSX.Element {
  const { desk, results } = useProgram();
  const about = useDesk((state) => state.view.about);
  const units = useDesk((state) => state.view.units);
  const now = useDesk((state) => state.preview?.section ?? state.section);
  const latest = useSyncExternalStore(results.subscribe, results.get);
  const pumps = inOrder(now).filter((part): part is Pump => part.kind === "pump");
  const pump = pumps.find(({ id }) => id === about) ?? pumps[0];
  if (!pump) return <p>There is no pump on this sheet.</p>;
  const inHand = now !== section;
  const whole = latest?.section === now && latest.assessment ? latest.assessment.running : null;
  const running = whole ?? results.runningNow(now);
  const reading = running?.converged ? running.pumps.get(pump.id) : undefined;
  return (
    <>
      {pumps.length > 1 ? (
        <ChoiceField
          label="Pump"
          value={pump.id}
          options={pumps.map((each) => [each.id, partName(each)])}
          choose={(id) => desk.look((view) => ({ ...view, about: pumps.find((each) => each.id === id)?.id ?? null }))}
        />
      ) : null}
      <p aria-live="off">
        {reading ? (
          <>
            <b>{partName(pump)}</b> delivers <b>{wholeFigures(showQuantity("flow", reading.flow, units))}</b> at{" "}
            <b>{wholeFigures(showQuantity("head", reading.head, units))}</b>.
          </>
        ) : (
          "Being solved."
        )}
      </p>
      <DutyPlot section={now} pump={pump} running={running} points={inHand ? 9 : 26} height={230} />
      <p className="hint">Pull a vessel, a level or a bend on the sheet, and the point slides.</p>
    </>
  );
}
