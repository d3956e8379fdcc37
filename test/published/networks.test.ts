import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { networkChecks } from "./laws/networks.ts";

describe("worked examples of whole systems", () => holdAgainst(networkChecks));
