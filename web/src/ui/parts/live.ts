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
  const { build, after } = useGiven().app.environment;
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
  useEffect(() => {
    if (!shown || !kept) return;
    let here = true;
    const pause = () => new Promise<boolean>((done) => after(PAUSE_MS, () => done(here)));
    void answers.readSlowly(shown.book, pause).then(async (done) => {
      if (!done) return;
      const place = answers.placeToKeep(shown.book, kept.place, build);
      const known = place ? { ...kept, place } : kept;
      const answer = answers.toKeep(shown.book, known, build);
      if (!answer && !place) return;
      setRead({ book, kept: answer ? { ...known, answer } : known });
      const keeping = [place && user.keep(book, "place", place), answer && user.keep(book, "answer", answer)];
      await Promise.allSettled(keeping); // a phone without room for them reads the log
    });
    return () => {
      here = false;
    };
  }, [shown]);
  return shown;
}

/** The day's state without what is in the tanks, and with it (`read`) once the log has been read without hurry. */
export function useDay({ book }: BookView): { readonly state: answers.State; readonly read: boolean } {
  const { after, nowMs } = useGiven().app.environment;
  const [known, setKnown] = useState<{ readonly book: answers.Book; readonly state: answers.State }>();
  const now = () => new Date(nowMs()).toISOString();
  useEffect(() => {
    let here = true;
    const pause = () => new Promise<boolean>((done) => after(PAUSE_MS, () => done(here)));
    void answers.readSlowly(book, pause).then((read) => {
      if (read && here) setKnown({ book, state: answers.stateAt(book, now()) });
    });
    return () => {
      here = false;
    };
  }, [book]);
  const without = useMemo(() => answers.presentAt(book, now()), [book]);
  const read = known?.book === book;
  return { state: read ? known.state : without, read };
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
