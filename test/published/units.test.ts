import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { unitChecks } from "./laws/units.ts";

describe("units", () => holdAgainst(unitChecks));
