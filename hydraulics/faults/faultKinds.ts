/** The kinds of single fault: the table. */
import { checkValveStuck } from "./checkValveStuck.ts";
import type { FaultKind } from "./faultKind.ts";
import { flushOpen } from "./flushOpen.ts";
import { mediaClogged } from "./mediaClogged.ts";
import { pondLow } from "./pondLow.ts";
import { powerCutAlone } from "./powerCutAlone.ts";
import { pumpWeak } from "./pumpWeak.ts";
import { rain } from "./rain.ts";
import { returnBlocked } from "./returnBlocked.ts";
import { returnHalfBlocked } from "./returnHalfBlocked.ts";
import { supplyOffVessel } from "./supplyOffVessel.ts";
import { supplyParted } from "./supplyParted.ts";
import { throttleShut } from "./throttleShut.ts";
import { ventBlocked } from "./ventBlocked.ts";

/** In the order in which they are simulated. A new kind is a new file and a line here. */
export const faultKinds: readonly FaultKind[] = [
  powerCutAlone,
  checkValveStuck,
  ventBlocked,
  returnBlocked,
  returnHalfBlocked,
  supplyParted,
  supplyOffVessel,
  flushOpen,
  throttleShut,
  mediaClogged,
  pumpWeak,
  rain,
  pondLow,
];
