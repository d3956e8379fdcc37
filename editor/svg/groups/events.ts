import type { Drawing } from "../../scene/drawing.ts";
import { sentencesOf } from "../../sheet/sentence.ts";
import { formatTime } from "../../sheet/units.ts";
import type { TableGroup } from "../tableColumn.ts";
import { paragraph } from "./cells.ts";
import type { Numbers } from "./group.ts";

export function eventsGroup({ section, powerCut, system }: Drawing, _: Numbers, width: number): TableGroup {
  const says = sentencesOf(section, system);
  return {
    key: "events",
    title: "If the power fails, step by step",
    items: (powerCut && !powerCut.failedAt ? powerCut.events : []).map((event) =>
      paragraph(`${formatTime(event.time)}: ${says(event.text)}`, width),
    ),
  };
}
