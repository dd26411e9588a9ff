/**
 * What is searched and merged of documents to answer step 1, held to so much a second. A state
 * vector of a dozen bytes can ask for a walk through megabytes whose answer is as short as itself.
 */
import {
  searchedBytesBurst,
  searchedBytesFree,
  searchedBytesPerSecond,
} from "@halflap/wire/limits";

/** One for the process, over all rooms. */
export class Searches {
  private left = searchedBytesBurst;
  private at: number | undefined;

  /**
   * Whether so many bytes may be gone through now, in ms; then they count. The last half is kept
   * for those who wait already: whoever goes on asking would never leave them anything.
   */
  take(bytes: number, now: number, hasWaited: boolean): boolean {
    if (bytes <= searchedBytesFree) return true;
    const earned = ((now - (this.at ?? now)) / 1000) * searchedBytesPerSecond;
    this.left = Math.min(searchedBytesBurst, this.left + Math.max(0, earned));
    this.at = now;
    if (this.left <= (hasWaited ? 0 : searchedBytesBurst / 2)) return false;
    this.left -= bytes; // below nothing too: one document may be larger than what is left
    return true;
  }
}
