/** Mutations and versions for tests, with only what a test is about spelled out. */
import type { Mutation, Version } from "@/sync/mutation";
import type { Queued } from "@/sync/outbox";

const SAID = { made_at: "2026-03-04T05:06:07.000Z", utc_offset_min: 600 };

export function mutation(over: Partial<Mutation> = {}): Mutation {
  return {
    mut: "m1",
    book: "b",
    kind: "item",
    id: "r",
    base_rev: null,
    body: { name: "Fridge" },
    device_seq: 1,
    schema: 1,
    ...SAID,
    ...over,
  };
}

export function queued(over: Partial<Queued> = {}): Queued {
  return { ...mutation(over), state: over.state ?? "waiting" };
}

export function version(over: Partial<Version> = {}): Version {
  return {
    book: "b",
    seq: 1,
    rev: "v1",
    kind: "item",
    id: "r",
    base_rev: null,
    standing: "applied",
    body: { name: "Fridge" },
    author: "u",
    device: "d",
    device_seq: 1,
    received_at: "2026-03-04T05:06:08.000Z",
    ...SAID,
    ...over,
  };
}
