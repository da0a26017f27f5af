/** The fill that is missing before another one: entered late, it takes its place before it. */
import type { JSX } from "preact";
import type { Book, Row } from "@/services/answers";
import { useBook, useServices } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { FillEntry } from "@/ui/screens/fuel";
import { emptyFill } from "@/ui/screens/fuel/entry";
import { words } from "@/ui/text/entry";
import { entryOf } from "@/ui/text/findings";
import { describe } from "@/ui/text/log";

interface Props {
  readonly book: string;
  readonly entry: string;
}

export default function BeforeScreen({ book, entry }: Props): JSX.Element | null {
  const view = useBook(book);
  const { go } = useServices();
  const row = view && entryOf(view.book, entry);
  if (!view || !row) return null;
  const back = `/b/${book}/fuel`;
  const at = halfway(view.book, row);
  return (
    <Screen title={words.before} back={back} aside={view.name} narrow>
      <p class="hint">{words.beforeOf(describe(row, view.book))}</p>
      <FillEntry
        view={view}
        name={`before:${view.id}:${row.id}`}
        initial={emptyFill(view.book, row.body.towing === true)}
        beside={{ at, zone: row.body.zone }}
        onSaved={() => go(back, { replace: true })}
      />
    </Screen>
  );
}

/** An instant between the entry and the one before it: nobody knows when the missing one was. */
function halfway({ fills, dips, transfers }: Book, row: Row): string {
  const until = Date.parse(row.body.at);
  const earlier = [...fills, ...dips, ...transfers].map(({ body }) => Date.parse(body.at));
  const since = Math.max(until - DAY_MS, ...earlier.filter((at) => at < until));
  return new Date((since + until) / 2).toISOString();
}

const DAY_MS = 86_400_000;
