import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { hazenWilliamsChecks } from "./laws/hazenWilliams.ts";

describe("Hazen-Williams", () => holdAgainst(hazenWilliamsChecks));
