/** What can be done with the part or the place under the pointer, most particular first. Each item is an action of
 * `state/actions`, so that a menu can do nothing that a hand or a key can not. */
import {
  nearestOnLine,
  type Part,
  type PartId,
  type Pipe,
  type Point,
  pipeLine,
  placeAt,
  type Section,
} from "../../../hydraulics/index.ts";
import { addBend } from "../../state/actions/addBend.ts";
import { type Alignment, alignParts } from "../../state/actions/alignParts.ts";
import { copyParts, cutParts, duplicateParts } from "../../state/actions/copyParts.ts";
import { pasteAt } from "../../state/actions/pasteAt.ts";
import { placeDevice } from "../../state/actions/placeDevice.ts";
import { placePart } from "../../state/actions/placePart.ts";
import { placePipe } from "../../state/actions/placePipe.ts";
import { placeSpillway } from "../../state/actions/placeSpillway.ts";
import { removeBend } from "../../state/actions/removeBend.ts";
import { removeParts } from "../../state/actions/removeParts.ts";
import { setField } from "../../state/actions/setField.ts";
import { copied, lastCopied } from "../../state/clipboard.ts";
import type { Desk } from "../../state/desk.ts";
import type { Changed } from "../../state/edit.ts";
import { freshParts } from "../../state/freshParts.ts";
import { inOrder } from "../../state/inOrder.ts";
import { onToNextStop } from "./onToNextStop.ts";
import { setDown } from "./setDown.ts";

export interface MenuItem {
  readonly label: string;
  readonly keys?: string;
  readonly act: () => void;
}

/** Groups are set apart by a line. */
export type Menu = readonly (readonly MenuItem[])[];

export interface MenuPlace {
  readonly at: Point;
  readonly part: PartId | null;
  /** m within which a bend or a wall is met */
  readonly reach: number;
}

export function menuFor(desk: Desk, fit: () => void, { at, part: id, reach }: MenuPlace): Menu {
  const { section, view } = desk.get();
  const part = id === null ? undefined : section.parts.get(id);
  const chosen = part ? (view.selection.has(part.id) ? view.selection : new Set([part.id])) : view.selection;
  const does = (changed: (now: Section) => Changed) => () => place(desk, changed);
  const whole: readonly MenuItem[] = [
    {
      label: "Choose everything",
      keys: "Ctrl A",
      act: () => desk.choose(inOrder(desk.get().section).map((each) => each.id)),
    },
    { label: "The whole section on the sheet", keys: "0", act: fit },
  ];
  const text = lastCopied();
  const paste: readonly MenuItem[] =
    text === null ? [] : [{ label: "Paste here", act: () => setDown(desk, pasteAt(desk.get().section, text, at, id)) }];
  if (!part)
    return [
      [
        { label: "Set down a pond here", act: does((now) => placePart(now, "pond", at)) },
        { label: "Set down a vessel here", act: does((now) => placePart(now, "vessel", at)) },
        { label: "Write a note here", act: does((now) => placePart(now, "note", at)) },
      ],
      paste,
      whole,
    ].filter(({ length }) => length > 0);
  return [
    chosen.size > 1 ? alignItems(desk, chosen) : ofPart(section, part, at, reach, does),
    [...editItems(desk, chosen), ...paste],
    whole,
  ].filter(({ length }) => length > 0);
}

type Does = (changed: (now: Section) => Changed) => () => void;

function ofPart(section: Section, part: Part, at: Point, reach: number, does: Does): readonly MenuItem[] {
  const { id } = part;
  const lead: MenuItem = { label: "Lead a pipe off here", act: does((now) => leadOff(now, at, reach)) };
  switch (part.kind) {
    case "pipe":
      return [...ofPipe(section, part, at, reach, does), { ...lead, label: "Tee a pipe off here" }];
    case "pond":
      return [
        { label: "Set down a pump here", act: does((now) => placePart(now, "pump", at)) },
        lead,
        { label: "Cut a spillway into its rim", act: does((now) => placeSpillway(now, [at[0], part.rimLevel])) },
      ];
    case "vessel":
      return [
        lead,
        { label: "Cut a spillway into its rim", act: does((now) => placeSpillway(now, [at[0], part.rimLevel])) },
      ];
    case "pump":
      return [{ ...lead, act: does((now) => leadOff(now, [part.x, part.z], reach)) }];
    case "valve": {
      const shut = (part.open ?? (part.role === "flush" ? 0 : 1)) === 0;
      const set = (open: number, label: string) =>
        does((now) =>
          setField(now, [id], label, (draft) => {
            if (draft.kind === "valve") draft.open = open;
          }),
        );
      return [
        shut
          ? { label: "Open it fully", act: set(1, "Open a valve") }
          : { label: "Shut it", act: set(0, "Shut a valve") },
      ];
    }
    case "checkValve":
    case "vent":
    case "spillway":
    case "note":
      return [];
  }
}

function ofPipe(section: Section, pipe: Pipe, at: Point, reach: number, does: Does): readonly MenuItem[] {
  const line = pipeLine(section, pipe);
  const { at: along } = nearestOnLine(line, at);
  const bend = line
    .slice(1, -1)
    .map(([x, z], index) => ({ index, off: Math.hypot(x - at[0], z - at[1]) }))
    .filter(({ off }) => off <= reach)
    .sort((a, b) => a.off - b.off)[0];
  const device = (kind: "valve" | "checkValve" | "vent", label: string): MenuItem => ({
    label,
    act: does((now) => placeDevice(now, kind, pipe.id, along)),
  });
  return [
    bend
      ? { label: "Take this bend out", act: does((now) => removeBend(now, pipe.id, bend.index)) }
      : { label: "Add a bend here", act: does((now) => addBend(now, pipe.id, placeAt(line, along))) },
    device("valve", "Put a valve here"),
    device("checkValve", "Put a check valve here"),
    device("vent", "Put a breather here"),
  ];
}

/** m of a pipe led off from a menu: long enough to be taken by its end and pulled where it shall go */
const led = { along: 0.5, up: 0.3 };

const leadOff = (section: Section, at: Point, reach: number): Changed =>
  placePipe(section, { from: at, to: [at[0] + led.along, at[1] + led.up], reach });

function alignItems(desk: Desk, ids: ReadonlySet<PartId>): readonly MenuItem[] {
  const align = (label: string, alignment: Alignment): MenuItem => ({
    label,
    act: () => void desk.apply(alignParts(desk.get().section, ids, alignment)),
  });
  return [
    align("Align tops", "top"),
    align("Align bottoms", "bottom"),
    align("Align left edges", "left"),
    align("Align right edges", "right"),
  ];
}

function editItems(desk: Desk, ids: ReadonlySet<PartId>): readonly MenuItem[] {
  const keep = (text: string): void => {
    copied(text);
    // The system's own clipboard too, where the page may: for another window.
    void navigator.clipboard?.writeText(text).catch(() => undefined);
  };
  const takeAway = (changed: Changed): void => onToNextStop(desk, () => void desk.apply(changed));
  return [
    { label: "Duplicate", keys: "Ctrl D", act: () => setDown(desk, duplicateParts(desk.get().section, ids)) },
    { label: "Copy", keys: "Ctrl C", act: () => keep(copyParts(desk.get().section, ids)) },
    {
      label: "Cut",
      keys: "Ctrl X",
      act: () => {
        const { changed, text } = cutParts(desk.get().section, ids);
        takeAway(changed);
        if (text !== null) keep(text);
      },
    },
    { label: "Remove", keys: "Delete", act: () => takeAway(removeParts(desk.get().section, ids)) },
  ];
}

/** What is new is chosen; where nothing is new the choice stays. */
function place(desk: Desk, change: (now: Section) => Changed): void {
  const before = desk.get().section;
  const changed = change(before);
  if (!desk.apply(changed) || !changed.ok) return;
  const fresh = freshParts(before, changed.section);
  if (fresh.length > 0) desk.choose(fresh.map(({ id }) => id));
}
