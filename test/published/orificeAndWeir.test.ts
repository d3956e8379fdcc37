import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { orificeAndWeirChecks } from "./laws/orificeAndWeir.ts";

describe("openings and sills", () => holdAgainst(orificeAndWeirChecks));
