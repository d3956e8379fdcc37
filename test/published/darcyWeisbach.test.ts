import { describe } from "vitest";
import { holdAgainst } from "./hold.ts";
import { darcyWeisbachChecks } from "./laws/darcyWeisbach.ts";

describe("Darcy-Weisbach and Colebrook-White", () => holdAgainst(darcyWeisbachChecks));
