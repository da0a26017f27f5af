/** The bridges that this device has seen: each is written into its weighings and known by its number or name. */

import { type Body, openBook, type Row } from "../domain/book";
import { bridgeKey } from "../domain/bridge";
import { recordsOfKind } from "../store/rows";
import type { RecordRow, UserTables } from "../store/tables";

/** A bridge as it was last written down; `book` is the vehicle that stood on it then. */
export interface SeenBridge {
  /** What makes it the same instrument; case and blanks do not count. */
  readonly key: string;
  readonly book: string;
  readonly at: string;
  readonly body: Body;
}

/** One line per bridge with a name or number over all vehicles here, the latest weighing first. */
export async function bridgesSeen(tables: UserTables): Promise<SeenBridge[]> {
  const [weighings, corrections] = await Promise.all([
    recordsOfKind(tables, "weighing"),
    recordsOfKind(tables, "correction"),
  ]);
  return latestOfEach([...countedOf([...weighings, ...corrections])]);
}

/** The bridge that a name or number means: case and blanks do not count. */
export function bridgeCalled(seen: readonly SeenBridge[], text: string): SeenBridge | null {
  const said = bridgeKey({ bridge: { name: text } });
  if (said === null) return null;
  const called = ({ key, body }: SeenBridge) =>
    key === said ||
    bridgeKey({ bridge: { name: body.name } }) === said ||
    bridgeKey({ bridge: { name: body.site_number } }) === said;
  return seen.find(called) ?? null;
}

/** The weighings that count, with the book of each: what was struck out or replaced tells of no bridge. */
function* countedOf(records: readonly RecordRow[]): Iterable<{ book: string; weighing: Row }> {
  for (const book of new Set(records.map((one) => one.book))) {
    const rows = records
      .filter((one) => one.book === book)
      .map(({ id, kind, rev, body, order }) => ({ id, kind, rev, body: body as Body, order }));
    for (const weighing of openBook({ rows }).weighings) yield { book, weighing };
  }
}

function latestOfEach(weighings: readonly { book: string; weighing: Row }[]): SeenBridge[] {
  const seen = weighings.flatMap(({ book, weighing }): SeenBridge[] => {
    const body: Body = weighing.body.bridge ?? {};
    const key = bridgeKey({ bridge: body });
    return key === null ? [] : [{ key, book, at: weighing.body.at, body }];
  });
  seen.sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : 0));
  return seen.filter((one, k) => seen.findIndex(({ key }) => key === one.key) === k);
}
