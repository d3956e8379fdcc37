/** What words and keys have in common. */
export interface Commands {
  open(): void;
  save(): void;
  saveAs(): void;
  fit(): void;
  zoom(by: number): void;
}
