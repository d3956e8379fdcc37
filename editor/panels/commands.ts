/** What words and keys have in common. */
export interface Commands {
  open(): void;
  save(): void;
  saveAs(): void;
  fit(): void;
  zoom(by: number): void;
  /** moves the sheet on, to show what lies to the right or down (1), to the left or up (-1) */
  stride(to: readonly [right: number, down: number]): void;
}
