import { describe, expect, test } from "vitest";
import { darcyWeisbach } from "../../hydraulics/elements/darcyWeisbach.ts";
import { holdAgainst } from "./hold.ts";
import { darcyWeisbachChecks } from "./laws/darcyWeisbach.ts";

describe("Darcy-Weisbach and Colebrook-White", () => holdAgainst(darcyWeisbachChecks));

describe.each([0, 1.5e-6, 1e-4, 1e-3])(
  "where the bridge over the critical zone begins and ends, roughness %f m",
  (roughness) => {
    const D = 0.04;
    const viscosity = 1e-6;
    const law = darcyWeisbach.build({ L: 10, D, roughness, viscosity });
    const flowAt = (Re: number) => (Re * Math.PI * D * viscosity) / 4;

    test.each([2000, 4000])("at Re %i loss, slope and content go on without a step", (Re) => {
      const [below, above] = [flowAt(Re * (1 - 1e-10)), flowAt(Re * (1 + 1e-10))];

      expect(law.loss(above) / law.loss(below)).toBeCloseTo(1, 8);
      expect(law.slope(above) / law.slope(below)).toBeCloseTo(1, 8);
      expect(law.content(above) / law.content(below)).toBeCloseTo(1, 8);
    });

    test("the content is the area under the loss from rest to Re 20,000", () => {
      // Simpson's rule, 2,000 strips up to each end of the bridge and beyond it.
      const area = (from: number, to: number) => {
        const strip = (to - from) / 2000;
        let sum = 0;
        for (let i = 0; i < 2000; i++) {
          const a = from + i * strip;
          sum += (strip / 6) * (law.loss(a) + 4 * law.loss(a + strip / 2) + law.loss(a + strip));
        }
        return sum;
      };
      const whole = area(0, flowAt(2000)) + area(flowAt(2000), flowAt(4000)) + area(flowAt(4000), flowAt(20000));

      expect(law.content(flowAt(20000)) / whole).toBeCloseTo(1, 7);
    });
  },
);
