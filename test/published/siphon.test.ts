import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { siphonChecks } from "./laws/siphon.ts";

describe("siphons", () => holdAgainst(siphonChecks));
