/** What the keys and the hand do; the slip of keys and the listener stay in step by reading the same lines. */
export const keyHelp: readonly (readonly [keys: string, does: string])[] = [
  [
    "p f u i v k b l t",
    "take up a stencil: pond, filter vessel, pump, pipe, valve, check valve, breather, spillway, note",
  ],
  ["Enter on a stencil", "sets the part down by itself, for hands without a pointer"],
  ["Drag", "moves a part, an end, a bend or a stretch; edges of what is chosen change its size"],
  ["Alt, held", "lets go of snapping and of right angles"],
  ["Double click", "puts a bend on a pipe, takes one out"],
  ["Shift and click", "chooses one more"],
  ["Arrow keys", "shift what is chosen by 1 cm (½ in), with Shift by 10 cm (6 in)"],
  ["Delete", "removes what is chosen"],
  ["Tab", "from part to part; Enter goes into its slip, Escape back"],
  ["Ctrl Z, Ctrl Y", "undo, redo"],
  ["Ctrl C, Ctrl X, Ctrl V, Ctrl D", "copy, cut, paste, duplicate"],
  ["Ctrl A", "chooses everything"],
  ["n d", "a new drawing, the drawings that this browser keeps"],
  ["Ctrl O, Ctrl S, Ctrl Shift S", "open, save, save as"],
  ["Wheel, Space and drag, middle drag", "moves the sheet; Ctrl and wheel or two fingers zoom"],
  ["+ − 0", "zoom in, out, to fit"],
  ["Escape", "leaves a drag without a trace, then the stencil, then the slip"],
  ["?", "this list"],
];
