import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { mediaChecks } from "./laws/media.ts";

describe("packed beds", () => holdAgainst(mediaChecks));
