/** The microphone, opened when it is asked for and given back afterwards. */

/** Why there is none: the person or the browser said no, there is no such thing, and so on. */
export type MicrophoneTrouble = "denied" | "none" | "busy" | "insecure" | "missing" | "failed";

export type Microphone = {
  readonly stream: MediaStream;
  /** Seconds that it takes a sound to come in; 0 where the browser does not tell. */
  readonly latency: number;
};

/**
 * Asks for the microphone as it is: what browsers do for speech (taking out echo and noise,
 * levelling) ruins an instrument.
 */
export async function openMicrophone(): Promise<Microphone | MicrophoneTrouble> {
  if (!isSecureContext) return "insecure";
  if (navigator.mediaDevices === undefined || typeof MediaRecorder === "undefined") {
    return "missing";
  }
  const audio = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  try {
    const stream = await navigator.mediaDevices.getUserMedia({ audio });
    return { stream, latency: latencyOf(stream) };
  } catch (fault) {
    return troubleOf(fault);
  }
}

/** Gives the microphone back, so that the browser's sign for it goes out. */
export function closeMicrophone({ stream }: Microphone): void {
  for (const track of stream.getTracks()) track.stop();
}

function latencyOf(stream: MediaStream): number {
  const settings: MediaTrackSettings & { readonly latency?: number } =
    stream.getAudioTracks()[0]?.getSettings() ?? {};
  return settings.latency ?? 0;
}

/** By the names that the standard gives (Media Capture and Streams, getUserMedia). */
function troubleOf(fault: unknown): MicrophoneTrouble {
  const name = fault instanceof DOMException ? fault.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") return "denied";
  if (name === "NotFoundError" || name === "OverconstrainedError") return "none";
  return name === "NotReadableError" || name === "AbortError" ? "busy" : "failed";
}
