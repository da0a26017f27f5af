/** Hooks for screens that calculate: all of `watch`, and the services with the answers of the domain. */
import { useEffect, useMemo, useState } from "preact/hooks";
import * as answers from "@/services/answers";
import { bridgesSeen, type SeenBridge } from "@/services/bridges";
import type { KeptAnswer } from "@/services/consumption";
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
  const [kept, setKept] = useState<{ readonly book: string; readonly answer: KeptAnswer | null }>();
  useEffect(() => {
    const found = (answer: KeptAnswer | null) => setKept({ book, answer });
    user.kept<KeptAnswer>(book).then(found, () => found(null));
  }, [user, book]);
  const answer = kept?.book === book ? kept.answer : undefined;
  const shown = useMemo(() => {
    if (view && answer !== undefined) answers.recall(view.book, answer, build);
    return answer === undefined ? null : view;
  }, [view, answer]);
  useEffect(() => {
    if (!shown) return;
    let here = true;
    const pause = () => new Promise<boolean>((done) => after(PAUSE_MS, () => done(here)));
    void answers.readSlowly(shown.book, pause).then(async (read) => {
      const next = read ? answers.toKeep(shown.book, answer ?? null, build) : null;
      if (!next) return;
      setKept({ book, answer: next });
      await user.keep(book, next);
    });
    return () => {
      here = false;
    };
  }, [shown]);
  return shown;
}

const PAUSE_MS = 30; // for what the page has to do first, and between pieces

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
