/** Fingers, as the browser gets them from a touch screen (through its debugging port), not as made-up events. */
import type { Page } from "playwright-core";
import type { Px } from "./sheet.ts";

export interface Fingers {
  down(...places: readonly Px[]): Promise<void>;
  move(...places: readonly Px[]): Promise<void>;
  up(): Promise<void>;
  /** From places to places, in steps, and up. */
  drag(from: readonly Px[], to: readonly Px[], steps?: number): Promise<void>;
}

export async function fingersOn(page: Page): Promise<Fingers> {
  const port = await page.context().newCDPSession(page);
  const send = async (type: "touchStart" | "touchMove" | "touchEnd", places: readonly Px[]): Promise<void> => {
    await port.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: places.map(([x, y], id) => ({ x, y, id })),
    });
  };
  const fingers: Fingers = {
    down: (...places) => send("touchStart", places),
    move: (...places) => send("touchMove", places),
    up: () => send("touchEnd", []),
    async drag(from, to, steps = 10) {
      await fingers.down(...from);
      for (let k = 1; k <= steps; k++)
        await fingers.move(
          ...from.map(([x, y], f): Px => {
            const [toX, toY] = to[f] as Px;
            return [x + ((toX - x) * k) / steps, y + ((toY - y) * k) / steps];
          }),
        );
      await fingers.up();
    },
  };
  return fingers;
}
