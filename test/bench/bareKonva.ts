/** Runs in a page: the same pictures by konva's own shapes, one for every node, for `drag.bench.ts`. */
import Konva from "konva/lib/Core.js";
import { Circle } from "konva/lib/shapes/Circle.js";
import { Line } from "konva/lib/shapes/Line.js";
import { Path } from "konva/lib/shapes/Path.js";
import { Text } from "konva/lib/shapes/Text.js";

export interface Drawn {
  readonly key: string;
  readonly is: "Line" | "Circle" | "Path" | "Text";
  readonly opacity: number;
  readonly with: Readonly<Record<string, unknown>>;
}

export interface Frames {
  readonly width: number;
  readonly height: number;
  readonly base: readonly Drawn[];
  /** what differs from the base, picture by picture */
  readonly changes: readonly (readonly Drawn[])[];
  /** pictures to show, the list of changes again and again */
  readonly moves: number;
}

const kinds = { Line, Circle, Path, Text } as const;
type Shape = InstanceType<(typeof kinds)[Drawn["is"]]>;

const shapeOf = ({ is, opacity, with: attributes }: Drawn): Shape =>
  new kinds[is]({ ...attributes, opacity, listening: false, perfectDrawEnabled: false } as never);

let play: () => Promise<void>;

function open({ width, height, base, changes, moves }: Frames, layers: 1 | 2): void {
  const stage = new Konva.Stage({ container: document.getElementById("sheet") as HTMLDivElement, width, height });
  const resting = new Konva.Layer({ listening: false });
  const moving = layers === 1 ? resting : new Konva.Layer({ listening: false });
  stage.add(resting);
  if (moving !== resting) stage.add(moving);
  const ever = new Set(changes.flat().map(({ key }) => key));
  const shapes = new Map<string, Shape>();
  const add = (node: Drawn): void => {
    const shape = shapeOf(node);
    shapes.set(node.key, shape);
    (ever.has(node.key) ? moving : resting).add(shape);
  };
  for (const node of base) add(node);
  stage.draw();
  play = () =>
    new Promise((done) => {
      let k = 0;
      const frame = (): void => {
        for (const node of changes[k % changes.length] ?? []) {
          const shape = shapes.get(node.key);
          if (shape) shape.setAttrs(node.with as never);
          else add(node);
        }
        moving.draw();
        // As a mouse would, so that the same frames are counted.
        window.dispatchEvent(new Event("pointermove"));
        k += 1;
        if (k < moves) requestAnimationFrame(frame);
        else done();
      };
      requestAnimationFrame(frame);
    });
}

Object.assign(window, { open, play: () => play() });
