/** Half-typed forms: kept as they are typed, so that a call, a crash or a reload loses nothing. */
import type { UserStore } from "../store";
import { type Environment, instant } from "./environment";

export interface Draft<T> {
  readonly key: string;
  /** As last typed, here or before; null when there is none. Told once what was kept has been read. */
  readonly found: Promise<T | null>;
  /** May be called before `found` is there: what is typed meanwhile is the later one. */
  readonly keep: (value: T) => void;
  /** Everything typed so far is in the database when this resolves. */
  readonly settled: () => Promise<void>;
  readonly drop: () => Promise<void>;
}

const PAUSE_MS = 250;

/** A draft is named by its screen and book. Saving an entry with the draft's key removes it in the same step. */
export function openDraft<T>(
  store: UserStore,
  environment: Pick<Environment, "nowMs" | "after">,
  key: string,
): Draft<T> {
  let last: { value: T | null } | null = null;
  let unwritten: { value: T } | null = null;
  let callOff: (() => void) | null = null;
  let writing: Promise<void> = Promise.resolve();
  const read = store.read((tables) => tables.drafts.get(key)).catch(() => undefined);
  const write = () => {
    callOff?.();
    callOff = null;
    const taken = unwritten;
    unwritten = null;
    if (taken === null) return writing;
    const draft = { key, value: taken.value, at: instant(environment.nowMs()) };
    // a draft that cannot be kept must not stand in the way of the form itself
    writing = writing.then(() => store.change((tables) => tables.drafts.put(draft))).then(nothing, nothing);
    return writing;
  };
  return {
    key,
    found: read.then((row) => (last ? last.value : ((row?.value as T | undefined) ?? null))),
    keep: (value) => {
      last = unwritten = { value };
      callOff ??= environment.after(PAUSE_MS, () => void write());
    },
    settled: () => write(),
    drop: async () => {
      last = { value: null };
      unwritten = null;
      callOff?.();
      callOff = null;
      await writing;
      await store.change((tables) => tables.drafts.delete(key));
    },
  };
}

function nothing(): void {}
