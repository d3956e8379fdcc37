import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { waterChecks } from "./laws/water.ts";

describe("water by temperature", () => holdAgainst(waterChecks));
