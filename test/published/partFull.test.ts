import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { partFullChecks } from "./laws/partFull.ts";

describe("part-full pipes", () => holdAgainst(partFullChecks));
