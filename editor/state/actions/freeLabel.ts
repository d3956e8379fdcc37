/** `Trough`, where there is one already `Trough 2`: what a copy is called. */
export function freeLabel(taken: { has(label: string): boolean }, wanted: string): string {
  if (!taken.has(wanted)) return wanted;
  const [, stem = wanted, number] = /^(.+) (\d+)$/.exec(wanted) ?? [];
  // The 2 of `Trough 2` counts troughs; the 50 of `Drain DN 50` does not, unless there is a `Drain DN`.
  const counts = number !== undefined && (number.length === 1 || taken.has(stem));
  const base = (counts ? stem : wanted).slice(0, longest);
  for (let n = 2; ; n++) if (!taken.has(`${base} ${n}`)) return `${base} ${n}`;
}

/** Characters: the format has room for a number behind them. */
const longest = 390;
