import type { Assessment, Finding, Mend, Section } from "../../../hydraulics/index.ts";
import type { View } from "../../state/view.ts";

export interface SheetSlipProps {
  readonly which: NonNullable<View["slip"]>;
  readonly section: Section;
  readonly assessment: Assessment | null;
  readonly mendsOf: (finding: Finding) => readonly Mend[] | null;
}
