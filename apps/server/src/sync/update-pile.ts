/**
 * Updates one behind the other in one piece of memory: an edit of forty bytes by itself would take
 * up some three hundred.
 */
export class UpdatePile {
  private bytes = new Uint8Array(0);
  private end = 0;
  private readonly ends: number[] = [];

  get count(): number {
    return this.ends.length;
  }

  add(update: Uint8Array): void {
    const end = this.end + update.length;
    if (end > this.bytes.length) this.grow(end);
    this.bytes.set(update, this.end);
    this.end = end;
    this.ends.push(end);
  }

  /** What lies on it, oldest first, as views of its memory. */
  updates(): readonly Uint8Array[] {
    return this.ends.map((end, i) => this.bytes.subarray(this.ends[i - 1] ?? 0, end));
  }

  private grow(needed: number): void {
    const grown = new Uint8Array(Math.max(needed, this.end + (this.end >> 1), 256));
    grown.set(this.bytes.subarray(0, this.end));
    this.bytes = grown;
  }
}
