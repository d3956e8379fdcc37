import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { tankEmptyingChecks } from "./laws/tankEmptying.ts";

describe("emptying tanks", () => holdAgainst(tankEmptyingChecks));
