/** What the outside world gives to the services; only the composition root makes a real one. */
import type { Engine } from "../store/open";

export interface Environment {
  readonly nowMs: () => number;
  /** Minutes that local time is ahead of UTC. */
  readonly utcOffsetMin: () => number;
  /** Another one for each version of the code: what an older one reckoned is not taken over. */
  readonly build: string;
  /** The IANA name of the local time zone. */
  readonly zone: () => string;
  /** Evenly spread from 0 to 1. */
  readonly chance: () => number;
  readonly bytes: (count: number) => Uint8Array;
  readonly engine: Engine;
  readonly after: After;
  readonly locks: Pick<LockManager, "request"> | null;
  /** Whether the browser believes that there is a network. */
  readonly online: () => boolean;
  /** A mistake of ours that nobody expects: to the browser's console. */
  readonly report: (error: unknown) => void;
  /** Calls back when the network or the page comes back; returns how to stop. */
  readonly onReturn: (wake: () => void) => () => void;
}

/** Call back after a time; returns how to call it off. */
export type After = (delay_ms: number, then: () => void) => () => void;

export function instant(ms: number): string {
  return new Date(ms).toISOString();
}
