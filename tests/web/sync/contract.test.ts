import { expectTypeOf, it } from "vitest";
import type * as contract from "@/contract";
import type { Mutation, SyncAnswer, SyncRequest, Version } from "@/sync/mutation";

/** The rules here take any body; all else is to be the server's contract, name for name. */
type Bare<T> = Omit<T, "body">;

it("what travels has the server's shape", () => {
  expectTypeOf<keyof contract.Mutation>().toEqualTypeOf<keyof Mutation>();
  expectTypeOf<keyof contract.Version>().toEqualTypeOf<keyof Version>();
  expectTypeOf<keyof contract.SyncRequest>().toEqualTypeOf<keyof SyncRequest>();
  expectTypeOf<keyof contract.SyncAnswer>().toEqualTypeOf<keyof SyncAnswer>();
  expectTypeOf<Bare<contract.Mutation>>().toExtend<Bare<Mutation>>();
  expectTypeOf<Bare<contract.Version>>().toExtend<Bare<Version>>();
});
