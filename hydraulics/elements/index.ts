/** The table of elements: whatever is listed here is walked by test/property/elements.test.ts. */
import { checkValve } from "./checkValve.ts";
import { darcyWeisbach } from "./darcyWeisbach.ts";
import { hazenWilliams } from "./hazenWilliams.ts";
import { mediaBed } from "./mediaBed.ts";
import { minorLoss } from "./minorLoss.ts";
import { pump } from "./pump.ts";
import { valve } from "./valve.ts";

export const elements = { hazenWilliams, darcyWeisbach, minorLoss, valve, checkValve, mediaBed, pump } as const;
export type ElementKind = keyof typeof elements;
