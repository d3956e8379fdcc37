import fc from "fast-check";
import { expect, it } from "vitest";
import { inSight } from "../../editor/canvas/zoom.ts";

const metres = fc.double({ min: -1e4, max: 1e4, noNaN: true });
const length = fc.double({ min: 0.2, max: 500, noNaN: true });
const size = { width: 1440, height: 900 };

it("wherever the sheet was moved to, 60 px of the drawing can be seen across and up, or all of it", () => {
  fc.assert(
    fc.property(
      metres,
      metres,
      length,
      length,
      fc.record({ x0: metres, z0: metres, scale: fc.double({ min: 4, max: 20000, noNaN: true }) }),
      (left, bottom, wide, high, camera) => {
        const bounds = { left, right: left + wide, bottom, top: bottom + high };
        const { x0, z0, scale } = inSight(camera, bounds, size);
        const [from, to] = [(bounds.left - x0) * scale, (bounds.right - x0) * scale];
        const [above, below] = [(z0 - bounds.top) * scale, (z0 - bounds.bottom) * scale];
        const near = 1e-4;
        expect(to).toBeGreaterThanOrEqual(60 - near);
        expect(from).toBeLessThanOrEqual(size.width - 60 + near);
        expect(below).toBeGreaterThanOrEqual(60 - near);
        expect(above).toBeLessThanOrEqual(size.height - 60 + near);
        expect(scale).toBe(camera.scale);
      },
    ),
  );
});

it("a camera that has the drawing in sight stays as it is", () => {
  const camera = { x0: -1, z0: 2, scale: 150 };
  expect(inSight(camera, { left: 0, right: 5, bottom: -1, top: 1 }, size)).toEqual(camera);
});
