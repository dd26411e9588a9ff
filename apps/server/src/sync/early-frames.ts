/** Frames that come before their room is open: kept in order, so much for a socket and for all. */
import { earlyBytesMax, earlyBytesPerSocketMax } from "@halflap/wire/limits";

/** What a frame that is kept takes up beside its bytes, about. */
const keptFrameBytes = 128;

/** What all sockets keep together, in bytes; one for the process. */
export class EarlyBytes {
  held = 0;
}

/** A socket's, until its room is open or it is closed. */
export class EarlyFrames {
  private frames: Uint8Array[] = [];
  private bytes = 0;
  private readonly all: EarlyBytes;

  constructor(all: EarlyBytes) {
    this.all = all;
  }

  /** Keeps one; false when too much is kept already, of this socket or of all together. */
  add(frame: Uint8Array): boolean {
    const taken = frame.length + keptFrameBytes;
    if (this.bytes + taken > earlyBytesPerSocketMax) return false;
    if (this.all.held + taken > earlyBytesMax) return false;
    this.frames.push(frame);
    this.bytes += taken;
    this.all.held += taken;
    return true;
  }

  /** All of them, oldest first, which are kept no longer. */
  takeAll(): readonly Uint8Array[] {
    const { frames } = this;
    this.all.held -= this.bytes;
    this.frames = [];
    this.bytes = 0;
    return frames;
  }
}
