/** Hooks for screens that calculate: all of `watch`, and the services with the answers of the domain. */
import { useEffect, useMemo, useState } from "preact/hooks";
import * as answers from "@/services/answers";
import { bridgesSeen, type SeenBridge } from "@/services/bridges";
import type { Kept, KeptAnswer, KeptPlace } from "@/services/consumption";
import type { Members } from "@/services/members";
import type { Records } from "@/services/records";
import { useGiven, useUser } from "@/ui/context";
import { type BookView, useBook as useOpened, useWatched } from "./watch";

export * from "./watch";
export type { SeenBridge };

/** The book as in `watch`; it answers at once with what was kept of the last time, and is then read without hurry. */
export function useBook(book: string): BookView | null {
  const { build } = useGiven().app.environment;
  const user = useUser();
  const view = useOpened(book);
  const [read, setRead] = useState<{ readonly book: string; readonly kept: Kept }>();
  useEffect(() => {
    const found = (kept: Kept) => setRead({ book, kept });
    const [answer, place] = [user.kept<KeptAnswer>(book, "answer"), user.kept<KeptPlace>(book, "place")];
    Promise.all([answer, place]).then(
      (both) => found({ answer: both[0], place: both[1] }),
      () => found({ answer: null, place: null }),
    );
  }, [user, book]);
  const kept = read?.book === book ? read.kept : undefined;
  const shown = useMemo(() => {
    if (view && kept) answers.recall(view.book, kept, build);
    return kept ? view : null;
  }, [view, kept]);
  const done = useRead(shown?.book ?? null);
  useEffect(() => {
    if (!shown || !kept || !done) return;
    const place = answers.placeToKeep(shown.book, kept.place, build);
    const known = place ? { ...kept, place } : kept;
    const answer = answers.toKeep(shown.book, known, build);
    if (!answer && !place) return;
    setRead({ book, kept: answer ? { ...known, answer } : known });
    const keeping = [place && user.keep(book, "place", place), answer && user.keep(book, "answer", answer)];
    void Promise.allSettled(keeping); // a phone without room for them reads the log
  }, [shown, done]);
  return shown;
}

/** Whether a book's log has been read: piece by piece, while the page has other things to do. */
export function useRead(book: answers.Book | null): boolean {
  const { after } = useGiven().app.environment;
  const [read, setRead] = useState<answers.Book | null>(null);
  useEffect(() => {
    if (!book) return;
    let here = true;
    const pause = () => new Promise<boolean>((go) => after(PAUSE_MS, () => go(here)));
    void answers.readSlowly(book, pause).then((done) => done && here && setRead(book));
    return () => {
      here = false;
    };
  }, [book]);
  return book !== null && read === book;
}

/** The day's state without what is in the tanks, and with it (`read`) once the log has been read. */
export function useDay({ book }: BookView): { readonly state: answers.State; readonly read: boolean } {
  const { nowMs } = useGiven().app.environment;
  const read = useRead(book);
  const state = useMemo(() => {
    const now = new Date(nowMs()).toISOString();
    return read ? answers.stateAt(book, now) : answers.presentAt(book, now);
  }, [book, read]);
  return { state, read };
}

const PAUSE_MS = 30; // for what the page has to do first, and between pieces

/** The entry just saved on a page whose answer stands on top: the answer comes into view. */
export function useSaved(): [id: string | null, set: (id: string | null) => void] {
  const [saved, setSaved] = useState<string | null>(null);
  useEffect(() => {
    if (saved) scrollTo({ top: 0 });
  }, [saved]);
  return [saved, setSaved];
}

/** The bridges that this device has seen, the latest first; null while they load. */
export function useBridges(): readonly SeenBridge[] | null {
  return useWatched((user) => user.watch(bridgesSeen), []) ?? null;
}

export interface Services {
  readonly clock: { readonly now: () => string; readonly zone: () => string };
  readonly ids: () => string;
  readonly records: Records;
  readonly members: Members;
  readonly answers: typeof answers;
  readonly go: (path: string, options?: { readonly replace?: boolean }) => void;
}

export function useServices(): Services {
  const { app, router } = useGiven();
  const user = useUser();
  return useMemo(() => {
    const { nowMs, zone } = app.environment;
    const clock = { now: () => new Date(nowMs()).toISOString(), zone };
    const { newId: ids, records, members } = user;
    return { clock, ids, records, members, answers, go: router.go };
  }, [app, router, user]);
}
