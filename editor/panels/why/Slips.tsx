import type { JSX } from "react";
import type { SheetSlipProps } from "../sheetSlips/sheetSlip.ts";
import { BuySlip } from "./BuySlip.tsx";
import { CompareSlip } from "./CompareSlip.tsx";
import { DutySlip } from "./DutySlip.tsx";
import { RulesSlip } from "./RulesSlip.tsx";
import { SizeSlip } from "./SizeSlip.tsx";
import { WhatIfSlip } from "./WhatIfSlip.tsx";
import "./why.css";

export default function Slips({ which, section, assessment }: SheetSlipProps): JSX.Element {
  return <div className="why">{bodyOf()}</div>;

  function bodyOf(): JSX.Element | null {
    switch (which) {
      case "rules":
        return <RulesSlip section={section} assessment={assessment} />;
      case "size":
        return <SizeSlip section={section} />;
      case "whatIf":
        return <WhatIfSlip section={section} />;
      case "compare":
        return <CompareSlip section={section} assessment={assessment} />;
      case "buy":
        return <BuySlip section={section} />;
      case "duty":
        return <DutySlip section={section} />;
      default:
        return null;
    }
  }
}
