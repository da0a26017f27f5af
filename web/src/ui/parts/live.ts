/** Hooks for screens that calculate: all of `watch`, and the services with the answers of the domain. */
import { useMemo } from "preact/hooks";
import * as answers from "@/services/answers";
import { bridgesSeen, type SeenBridge } from "@/services/bridges";
import type { Members } from "@/services/members";
import type { Records } from "@/services/records";
import { useGiven, useUser } from "@/ui/context";
import { useWatched } from "./watch";

export * from "./watch";
export type { SeenBridge };

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
