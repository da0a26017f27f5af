/** Hooks: what a screen reads stays current, and what is typed into it is kept. */
import { useEffect, useMemo, useState } from "preact/hooks";
import {
  type LogLine,
  logLines,
  type OpenedBook,
  openedBook,
  type VehicleLine,
  vehicleLines,
} from "@/services/books";
import type { Draft } from "@/services/drafts";
import type { Live } from "@/services/live";
import type { UserServices } from "@/services/user";
import { useGiven, useUser } from "@/ui/context";
import type { Terms } from "@/ui/text/ratings";

export type { LogLine, VehicleLine };

/** A book as a screen works with it. */
export interface BookView extends OpenedBook {
  /** The country's words for ratings; null for plain ones. */
  readonly terms: Terms | null;
}

/** Watch something in the database while the screen is there; undefined until it has been read. */
export function useWatched<T>(
  open: (user: UserServices) => Live<T>,
  keys: readonly unknown[],
): T | undefined {
  const user = useUser();
  const [read, setRead] = useState<{ readonly of: unknown; readonly value: T | undefined }>();
  const watched = useMemo(() => open(user), [user, ...keys]);
  useEffect(() => {
    const unsubscribe = watched.value.subscribe((value) => setRead({ of: watched, value }));
    return () => {
      unsubscribe();
      watched.stop();
    };
  }, [watched]);
  // what was read for another book is never shown for this one
  return read?.of === watched ? read.value : undefined;
}

/** The book, or null while it loads and where this device has none of that id. */
export function useBook(book: string): BookView | null {
  const opened = useWatched((user) => user.watch((tables) => openedBook(tables, book)), [book]);
  const user = useUser();
  const there = Boolean(opened);
  useEffect(() => {
    if (there) void user.noteOpened(book);
  }, [user, book, there]);
  return useMemo(
    () => (opened ? { ...opened, terms: (opened.book.vehicle?.body.terms ?? null) as Terms | null } : null),
    [opened],
  );
}

/** All vehicles on this device; null while they load. */
export function useBooks(): readonly VehicleLine[] | null {
  return useWatched((user) => user.watch(vehicleLines), []) ?? null;
}

/** All entries of a book, newest first; null while they load. */
export function useLog(book: string): readonly LogLine[] | null {
  return useWatched((user) => user.watch((tables) => logLines(tables, book)), [book]) ?? null;
}

export interface DraftState<T> {
  /** False until it is known whether there is a draft. */
  readonly ready: boolean;
  readonly value: T;
  readonly change: (value: T) => void;
  readonly drop: () => Promise<void>;
}

/** What is typed into a form, kept on the device until it is dropped. Named by the screen and its book. */
export function useDraft<T>(key: string, initial: T): DraftState<T> {
  const { app } = useGiven();
  const user = useUser();
  const draft = useMemo(() => user.draft<T>(key), [user, key]);
  const form = useMemo(() => app.forms.open(), [app, key]);
  const [opened, setOpened] = useState<Draft<T> | null>(null);
  const [value, setValue] = useState(initial);
  useEffect(() => {
    let here = true;
    void draft.found.then((found) => {
      if (!here) return;
      setOpened(draft);
      setValue(found ?? initial);
      form.setDirty(found !== null);
    });
    return () => {
      here = false;
      form.close();
    };
  }, [draft, form]);
  useEffect(() => {
    const settle = () => void draft.settled();
    document.addEventListener("visibilitychange", settle);
    return () => {
      document.removeEventListener("visibilitychange", settle);
      settle();
    };
  }, [draft]);
  const ready = opened === draft;
  return {
    ready,
    value,
    change: (next) => {
      setValue(next);
      form.setDirty(true);
      draft.keep(next);
    },
    drop: async () => {
      setValue(initial);
      form.setDirty(false);
      await draft.drop();
    },
  };
}
