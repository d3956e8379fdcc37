/** A time as a person counts it, s: `0`, `1.5 s`, `6 s`, `4 min`, `2 h 10 min`. Here, at the root of the library,
 * because sentences of the power cut and tables of the reports say times alike. */
export function formatTime(seconds: number): string {
  if (!Number.isFinite(seconds)) return "—";
  if (seconds < 9.95) return `${shortSeconds(seconds)} s`;
  if (seconds < 99.5 && Math.round(seconds) !== 60) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 100 && minutes !== 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  return minutes % 60 === 0 || hours >= 24 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

/** Two digits that count, at most one after the point. */
const shortSeconds = (seconds: number): string => String(Number(seconds.toFixed(1)));
