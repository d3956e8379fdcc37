import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { minorLossChecks } from "./laws/minorLoss.ts";

describe("losses in fittings, valves and changes of bore", () => holdAgainst(minorLossChecks));
