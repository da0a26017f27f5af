/** Names for what is made on this device: UUIDs of version 7 (RFC 9562, section 5.7). */

/** That many evenly spread bytes. */
export type Chance = (count: number) => Uint8Array;

/**
 * A source of ids that sort in the order of their making, also within one millisecond and when the clock goes
 * back: the 12 bits after the time count up (RFC 9562, section 6.2, method 1) from a start below half.
 */
export function idSource(nowMs: () => number, chance: Chance): () => string {
  let time = -1;
  let count = 0;
  return () => {
    const bytes = chance(10);
    const now = Math.floor(nowMs());
    if (now > time) {
      time = now;
      count = (((bytes[0] as number) << 8) | (bytes[1] as number)) & 0x7ff;
    } else if (++count > 0xfff) {
      time += 1;
      count = 0;
    }
    return uuid(time, count, bytes.subarray(2));
  };
}

function uuid(time: number, count: number, tail: Uint8Array): string {
  const head = time.toString(16).padStart(12, "0").slice(-12);
  const variant = ((tail[0] as number) & 0x3f) | 0x80;
  const rest = [variant, ...tail.subarray(1, 8)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const third = `7${count.toString(16).padStart(3, "0")}`;
  return [head.slice(0, 8), head.slice(8), third, rest.slice(0, 4), rest.slice(4)].join("-");
}
