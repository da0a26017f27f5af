/** One tab at a time. */
import type { Environment } from "./environment";

const STUCK_MS = 90_000;

/**
 * Run alone among the tabs of this device. A tab that the system has frozen while it held the lock loses it
 * after a time; nothing depends on being alone but the number of requests.
 */
export async function alone<T>(
  locks: Environment["locks"],
  name: string,
  work: () => Promise<T>,
): Promise<T> {
  if (locks === null) return work();
  const patience = AbortSignal.timeout(STUCK_MS);
  try {
    return await locks.request(name, { signal: patience }, work);
  } catch (error) {
    if (!patience.aborted || (error as Error).name !== "TimeoutError") throw error;
    return locks.request(name, { steal: true }, work);
  }
}

/** Whoever sends in a user's name, or changes whose cookie this is, holds this lock. */
export const SENDING = "tareway-sending";
