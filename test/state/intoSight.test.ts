import fc from "fast-check";
import { expect, it } from "vitest";
import { intoSight, strode } from "../../editor/canvas/intoSight.ts";

const metres = fc.double({ min: -1e3, max: 1e3, noNaN: true });
const length = fc.oneof(fc.constant(0), fc.double({ min: 0.02, max: 300, noNaN: true }));
const camera = fc.record({ x0: metres, z0: metres, scale: fc.double({ min: 4, max: 20000, noNaN: true }) });
const part = fc.record({ left: metres, bottom: metres, wide: length, high: length });
const rect = { x: 150, y: 110, width: 1050, height: 480 };

it("wherever the sheet was moved to, a part that the keyboard comes to is brought into the drawing's field, whole", () => {
  fc.assert(
    fc.property(camera, part, (before, { left, bottom, wide, high }) => {
      const bounds = { left, right: left + wide, bottom, top: bottom + high };
      const { x0, z0, scale } = intoSight(before, bounds, rect);
      const near = 1 + 1e-3;
      expect((left - x0) * scale).toBeGreaterThanOrEqual(rect.x - near);
      expect((bounds.right - x0) * scale).toBeLessThanOrEqual(rect.x + rect.width + near);
      expect((z0 - bounds.top) * scale).toBeGreaterThanOrEqual(rect.y - near);
      expect((z0 - bottom) * scale).toBeLessThanOrEqual(rect.y + rect.height + near);
      // From further away only where it does not go in.
      const goesIn = wide * before.scale < rect.width - near && high * before.scale < rect.height - near;
      if (goesIn) expect(scale).toBe(before.scale);
      expect(scale).toBeLessThanOrEqual(before.scale);
    }),
  );
});

it("for a part in sight the sheet stays where it is, also where it touches the field's edge as a fitted one does", () => {
  const before = { x0: 0, z0: 0, scale: 100 };

  expect(intoSight(before, { left: 2, right: 4, bottom: -3, top: -2 }, rect)).toBe(before);
  expect(intoSight(before, { left: 1.5, right: 12, bottom: -5.9, top: -1.1 }, rect)).toBe(before);
});

it("a part half out of sight moves the sheet one way only, and in by a little more than it takes", () => {
  const after = intoSight({ x0: 0, z0: 0, scale: 100 }, { left: 1, right: 3, bottom: -3, top: -2 }, rect);

  expect(after.z0).toBe(0);
  expect((1 - after.x0) * 100).toBeCloseTo(rect.x + 24, 9);
});

it("a key moves the sheet by a third of what is seen, and never so far that the drawing is lost", () => {
  const before = { x0: 0, z0: 0, scale: 100 };
  const bounds = { left: 2, right: 12, bottom: -6, top: -1 };

  const right = strode(before, [1, 0], bounds, rect);
  expect(right).toEqual({ scale: 100, x0: 3.5, z0: 0 });
  const down = strode(before, [0, 1], bounds, rect);
  expect(down).toEqual({ scale: 100, x0: 0, z0: expect.closeTo(-1.6, 9) });
  let far = before as typeof before;
  for (let k = 0; k < 50; k++) far = strode(far, [1, 1], bounds, rect);
  expect((bounds.right - far.x0) * 100).toBeCloseTo(rect.x + 60, 6);
  expect((far.z0 - bounds.bottom) * 100).toBeCloseTo(rect.y + 60, 6);
});
