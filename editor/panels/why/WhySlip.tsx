/** The slips that say why come when one is opened: plots, tables and lists are a chunk of their own. */
import { type JSX, lazy, Suspense } from "react";
import type { SheetSlipProps } from "../sheetSlips/sheetSlip.ts";

const Slips = lazy(() => import("./Slips.tsx"));

export function WhySlip(props: SheetSlipProps): JSX.Element {
  return (
    <Suspense fallback={<p className="hint">Being fetched.</p>}>
      <Slips {...props} />
    </Suspense>
  );
}
