/** A rate with a burst: so many at once, so many a second after that. */
export class TokenBucket {
  private left: number;
  private at: number;
  private readonly perSecond: number;
  private readonly burst: number;

  /** `now` in milliseconds. */
  constructor(perSecond: number, burst: number, now: number) {
    this.perSecond = perSecond;
    this.burst = burst;
    this.left = burst;
    this.at = now;
  }

  /** Takes one if there is one. */
  take(now: number): boolean {
    const earned = ((now - this.at) / 1000) * this.perSecond;
    this.left = Math.min(this.burst, this.left + Math.max(0, earned));
    this.at = now;
    if (this.left < 1) return false;
    this.left -= 1;
    return true;
  }
}
