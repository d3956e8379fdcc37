import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { airChecks } from "./laws/air.ts";

describe("air and vents", () => holdAgainst(airChecks));
