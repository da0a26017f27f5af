import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { idSource } from "@/sync/ids";

const UUID7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const bytes = (value: number) => (count: number) => new Uint8Array(count).fill(value);

describe("ids", () => {
  it("are the ones of the standard's layout", () => {
    // RFC 9562, appendix A.6: the same time, 0x017F22E279B0
    const id = idSource(() => 0x017f22e279b0, bytes(0))();
    expect(id).toBe("017f22e2-79b0-7000-8000-000000000000");
  });

  it("sort in the order of making, whatever the clock does", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 2 ** 48 - 2 }), { minLength: 2, maxLength: 50 }),
        fc.integer({ min: 0, max: 255 }),
        (times, byte) => {
          let at = 0;
          const next = idSource(() => times[at++ % times.length] as number, bytes(byte));
          const ids = times.map(() => next());
          expect([...ids].sort()).toEqual(ids);
          expect(new Set(ids).size).toBe(ids.length);
          for (const id of ids) expect(id).toMatch(UUID7);
        },
      ),
    );
  });

  it("stay apart when thousands are made within a millisecond", () => {
    const next = idSource(() => 1_700_000_000_000, bytes(255));
    const ids = Array.from({ length: 10_000 }, next);
    expect(new Set(ids).size).toBe(10_000);
    expect([...ids].sort()).toEqual(ids);
  });
});
