import type { JSX } from "react";
import { FindingList } from "../FindingList.tsx";
import type { SheetSlipProps } from "./sheetSlip.ts";

export function FindingsSlip({ section, assessment, mendsOf }: SheetSlipProps): JSX.Element {
  if (section.parts.size === 0)
    return <p>Nothing is drawn yet. Place a pond, a vessel and a pump, and join them by pipes.</p>;
  if (!assessment) return <p>Being solved.</p>;
  if (assessment.findings.length === 0) return <p>Nothing to look at. Results are estimates, not a licensed design.</p>;
  return <FindingList findings={assessment.findings} section={section} mendsOf={mendsOf} pick />;
}
