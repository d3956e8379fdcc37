/** How long Newton's steps are, and when they are over, by what each leaves of the equations (1: just what is promised).
 *
 * Whole steps that have left no less for a while go in a circle and are given up. Short ones halve what is left each
 * time, where they go the right way: after a few that do, whole ones are dared, until one leaves more than was left. */

/** whole steps in a row that leave no less than was left before, until they are given up */
const patience = 8;
/** short steps in a row that leave less, until a whole one is dared */
const falls = 4;

export class Pace {
  /** of the next step */
  length: number;
  private readonly shortest: number;
  private readonly patience: number;
  private least = Number.POSITIVE_INFINITY;
  private stale = 0;
  private before = Number.POSITIVE_INFINITY;
  private falling = 0;
  private daring: number;
  /** the least inside what is promised, and how many steps that stood */
  private best = Number.POSITIVE_INFINITY;
  private since = 0;

  /** @param inTime whether it is a step of the caller's in time: the state before is close by, circling whole steps come
   * home mostly, and neither is tried */
  constructor(shortest: number, inTime: boolean) {
    this.length = this.shortest = shortest;
    this.patience = inTime ? Number.POSITIVE_INFINITY : patience;
    this.daring = inTime ? Number.POSITIVE_INFINITY : falls;
  }

  /** Whether no further step helps; else sets the next one's length. */
  isOver(left: number): boolean {
    // Rounding has the last word: inside what is promised, and no better there for three steps.
    if (left > 1 || left < this.best * 0.5) {
      this.best = left > 1 ? Number.POSITIVE_INFINITY : left;
      this.since = 0;
    } else this.since++;
    if (this.since >= 3) return true;

    this.stale = left < this.least ? 0 : this.stale + 1;
    this.least = Math.min(this.least, left);
    if (this.shortest === 1 && this.stale >= this.patience) return true;

    this.falling = left < this.before ? this.falling + 1 : 0;
    this.before = left;
    if (this.length < 1 && this.falling >= this.daring) this.length = 1;
    else if (this.length > this.shortest && this.falling === 0) {
      this.length = this.shortest;
      this.daring *= 2;
    }
    return false;
  }
}
