/** The next certain supply of the planned route: how far, on what, reached or not, and if it is shut the one after. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import type { Row as Record } from "@/services/answers";
import { type Body, reportOf } from "@/services/road";
import {
  type Ahead as Answer,
  aheadOn,
  daysBetween,
  type NextSupply,
  surfacesOf,
  towedKm,
} from "@/services/way";
import { nextWords, surfaceList, takeWords, words } from "@/ui/text/ahead";
import { saidWords } from "@/ui/text/reports";
import { type BookView, useRead, useServices } from "./live";
import { SelectField } from "./pick";
import { Row } from "./row";
import { Where, type WhereState } from "./where";

interface Props {
  readonly view: BookView;
  readonly holds: "fuel" | "water";
  /** Null until it is known. */
  readonly where: WhereState | null;
}

/** Nothing where no route is planned. */
export function Ahead({ view, holds, where }: Props): JSX.Element | null {
  if (!where?.row) return null;
  return <OnRoute {...{ view, holds }} row={where.row} from_km={where.from_km} />;
}

/** On which route, and where: what the supplies ahead are reckoned from. */
export function AheadFrom({ view, where }: Omit<Props, "holds">): JSX.Element | null {
  const { routes } = view.book;
  if (!where || routes.length === 0) return null;
  const { row, told, choose } = where;
  return (
    <div>
      {row ? <Where {...{ view, where, row }} /> : null}
      {routes.length > 1 || told.route === "" ? (
        <SelectField
          label={words.which}
          value={row?.id ?? ""}
          options={[
            ...routes.map(({ id, body }) => ({ value: id, label: body.name })),
            { value: "", label: words.noRoute },
          ]}
          onChange={(route) => choose({ route, anchor: null })}
        />
      ) : null}
      {row ? <Row label={words.whole(row.body.name)} to={`/b/${view.id}/road/${row.id}`} /> : null}
    </div>
  );
}

interface OnRouteProps extends Omit<Props, "where"> {
  readonly row: Record;
  readonly from_km: number;
}

function OnRoute({ view, holds, row, from_km }: OnRouteProps): JSX.Element {
  const { answers, clock } = useServices();
  const { book } = view;
  const there = holds === "water" || answers.isRead(book);
  const read = useRead(there ? null : book) || there;
  const found = useMemo(
    () => (read ? aheadOn(book, row, clock.now(), holds, from_km) : null),
    [book, row, holds, from_km, read],
  );
  return (
    <div role="group" aria-label={words.group[holds]}>
      {found?.next.map((one, n) => (
        <Next key={one.at_km} {...{ view, holds, found, one, from_km }} after={found.next[n - 1] ?? null} />
      ))}
    </div>
  );
}

interface NextProps extends Omit<Props, "where"> {
  readonly found: Answer;
  readonly one: NextSupply;
  /** The one before it, which would be shut. */
  readonly after: NextSupply | null;
  readonly from_km: number;
}

function Next({ view, holds, found, one, after, from_km }: NextProps): JSX.Element {
  const { clock } = useServices();
  const { route, confidence } = found;
  const name = (supply: number | null) => (supply === null ? null : (route.supplies[supply].name as string));
  const days = holds === "water" ? daysBetween(route, from_km, one.at_km) : null;
  const [headline, chance] = nextWords(name(one.supply), one, days, confidence);
  const told = [
    chance,
    takeWords(holds, one, confidence),
    holds === "fuel"
      ? surfaceList(surfacesOf(one), view.book.trailers.length > 0 ? towedKm(one) : null)
      : after
        ? ""
        : trailerWords(found),
  ];
  const passed = after ? [] : skipped(route, holds, from_km, one.at_km);
  const said = passed.flatMap((supply) => {
    const report = reportOf(view.book, supply.name, clock.now())?.[holds];
    return report ? [`${supply.name} ${saidWords(report, view, clock.zone())}.`] : [];
  });
  return (
    <div>
      <p>
        <strong>
          {after ? words.ifShut(name(after.supply) ?? words.end, headline) : words.next[holds] + headline}
        </strong>{" "}
        {told.filter(Boolean).join(" ")}
      </p>
      {said.map((line) => (
        <p key={line} class="hint">
          {line}
        </p>
      ))}
    </div>
  );
}

/** Whose tanks count otherwise on the way than they do now. */
function trailerWords({ left, added }: Answer): string {
  if (left.length > 0) return words.leaving(left.join(", "));
  return added.length > 0 ? words.adding(added.join(", ")) : "";
}

/** Supplies before the next certain one that were struck out. */
function skipped(route: Body, holds: "fuel" | "water", from_km: number, to_km: number): Body[] {
  return ((route.supplies ?? []) as Body[]).filter(
    (one) => one[holds] && one[`${holds}_shut`] && one.at_km >= from_km && one.at_km < to_km,
  );
}
