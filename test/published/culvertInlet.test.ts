import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { culvertInletChecks } from "./laws/culvertInlet.ts";

describe("inlet control", () => holdAgainst(culvertInletChecks));
