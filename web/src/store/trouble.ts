/** What can go wrong with the device's storage, in the few kinds that a screen can do something about. */

export type StorageFault = "full" | "closed" | "newer" | "failed";

export class StorageTrouble extends Error {
  override readonly name = "StorageTrouble";

  constructor(
    readonly fault: StorageFault,
    cause: unknown,
  ) {
    super(`storage ${fault}`, { cause });
  }
}

// Names under which engines say that the connection is gone (WebKit: UnknownError behind a page in the background).
const CLOSED = ["DatabaseClosedError", "InvalidStateError", "UnknownError"];
const NAMES: readonly (readonly [string, StorageFault])[] = [
  ["QuotaExceededError", "full"],
  ["VersionError", "newer"],
  ...CLOSED.map((name) => [name, "closed"] as const),
];

/** The library wraps the browser's error as `inner`, sometimes twice; a full disk shows only there. */
export function faultOf(error: unknown): StorageFault {
  const names = new Set(chain(error).map((one) => one.name));
  return NAMES.find(([name]) => names.has(name))?.[1] ?? "failed";
}

function chain(error: unknown): { name?: string }[] {
  const found: { name?: string; inner?: unknown }[] = [];
  let one = error as { name?: string; inner?: unknown } | undefined;
  while (one && found.length < 5 && !found.includes(one)) {
    found.push(one);
    one = one.inner as typeof one;
  }
  return found;
}

/** Whether a failure came from the storage at all, rather than from our own code. */
export function isStorageError(error: unknown): boolean {
  return chain(error).some((one) =>
    /^(Quota|Version|Database|InvalidState|Unknown|Abort|Data|Constraint|Transaction|Read|OpenFailed|Bulk|Modify|Timeout)\w*Error$/.test(
      one.name ?? "",
    ),
  );
}
