/** While litres are typed: how far they reach, and what they do to the ratings. Nothing is saved yet. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import type { Row } from "@/services/answers";
import { type FillRoom, fillIn } from "@/services/fill_room";
import { type BookView, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { km, litres, perHundred } from "@/ui/text/figures";
import { words } from "@/ui/text/fuel";
import { ratingName, verdictWords } from "@/ui/text/ratings";

interface Props {
  readonly view: BookView;
  /** What would be saved; null while it cannot be read. */
  readonly body: Row["body"] | null;
  /** The tanks that something is typed for; without any, the first. */
  readonly tanks: readonly Row[];
  readonly litres_l: Readonly<Record<string, number>>;
}

export function Filling({ view, body, tanks, litres_l }: Props): JSX.Element {
  const { answers, clock } = useServices();
  const now = clock.now();
  const state = useMemo(() => answers.stateAt(view.book, now), [view.book]);
  const day = now.slice(0, 10);
  const told = JSON.stringify([body && { ...body, at: "" }, litres_l]);
  const expected = useMemo(() => (body ? answers.fuelWith(view.book, body) : null), [view.book, told]);
  const rooms = useMemo(
    () => tanks.map(({ id }) => fillIn(view.book, state, day, { tank_id: id, litres_l })),
    [view.book, state, told, tanks.length],
  );
  return (
    <>
      {expected ? (
        <p class="hint">
          {words.withIt(km(expected.count_on_km), km(expected.likely_km))}
          {expected.since_full ? ` ${words.rateSince(perHundred(expected.since_full.l_per_100km))}` : ""}
        </p>
      ) : null}
      {tanks.map(({ id, body: tank }, k) => (
        <Ratings key={id} view={view} room={rooms[k] ?? null} name={tank.name} />
      ))}
    </>
  );
}

interface RatingsProps {
  readonly view: BookView;
  readonly room: FillRoom | null;
  readonly name: string;
}

/** Which rating goes first and at how many litres, or that none does; nothing without a plan that reaches so far. */
function Ratings({ view, room, name }: RatingsProps): JSX.Element | null {
  if (!room) return null;
  const named = ({ rating }: { readonly rating: string }) => ratingName(rating, view.terms);
  const { most_l, binds, fits_l, already, after } = room;
  const [worst] = after.filter((one) => one.word === "over" || one.word === "cannot_tell");
  if (already.length > 0) return <Notice tone="warn">{words.overNow(already.map(named).join(", "))}</Notice>;
  if (worst) {
    const most = most_l === null ? "" : ` ${words.atMost(litres(Math.floor(most_l)))}`;
    return <Notice tone="warn">{`${words.afterIt(named(worst), verdictWords(worst))}${most}`}</Notice>;
  }
  if (most_l === null || binds === null) return null;
  return most_l >= fits_l ? (
    <p class="hint">{words.fullHolds(name)}</p>
  ) : (
    <p>
      {binds.side === "upper"
        ? words.firstOver(litres(Math.floor(most_l)), name, named(binds))
        : words.firstLifts(litres(Math.floor(most_l)), name, named(binds))}
    </p>
  );
}
