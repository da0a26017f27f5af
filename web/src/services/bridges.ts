/** The bridges that this phone has seen: nobody enters one twice. */
import { bridgeKey } from "../domain/visit";
import { recordsOfKind } from "../store/rows";
import type { UserTables } from "../store/tables";

/** A scale as a weighing keeps it; blank figures are the common public bridge's. */
export interface BridgeFacts {
  readonly name: string;
  readonly interval_kg: number | null;
  readonly form?: string;
  readonly accuracy_class?: string;
  readonly percent?: number | null;
  readonly max_kg?: number | null;
  readonly site_number?: string | null;
}

export interface SeenBridge extends BridgeFacts {
  readonly key: string;
  readonly book: string;
  readonly at: string;
}

/** Every bridge with a name or a number, as last entered, the latest first. */
export async function bridgesSeen(tables: Pick<UserTables, "records">): Promise<SeenBridge[]> {
  const weighings = await recordsOfKind(tables, "weighing");
  const seen = new Map<string, SeenBridge>();
  const latestFirst = [...weighings].sort((a, b) => (String(a.body.at) < String(b.body.at) ? 1 : -1));
  for (const { book, body } of latestFirst) {
    const bridge = (body.bridge ?? {}) as Record<string, unknown>;
    const key = bridgeKey(bridge);
    if (key !== null && !seen.has(key)) seen.set(key, { ...factsOf(bridge), key, book, at: String(body.at) });
  }
  return [...seen.values()];
}

/** What a typed name stands for: a bridge that is known by it, blanks and case ignored. */
export function bridgeNamed(name: string, seen: readonly SeenBridge[]): SeenBridge | null {
  const key = bridgeKey({ name });
  return key === null ? null : (seen.find((one) => bridgeKey({ name: one.name }) === key) ?? null);
}

function factsOf(bridge: Readonly<Record<string, unknown>>): BridgeFacts {
  const number = (name: string) => (typeof bridge[name] === "number" ? (bridge[name] as number) : null);
  const text = (name: string) => (typeof bridge[name] === "string" ? (bridge[name] as string) : null);
  return {
    name: text("name") ?? "",
    interval_kg: number("interval_kg"),
    form: text("form") ?? "single_deck",
    accuracy_class: text("accuracy_class") ?? "III",
    percent: number("percent"),
    max_kg: number("max_kg"),
    site_number: text("site_number"),
  };
}
