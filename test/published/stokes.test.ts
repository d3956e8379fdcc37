import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { stokesChecks } from "./laws/stokes.ts";

describe("settling", () => holdAgainst(stokesChecks));
