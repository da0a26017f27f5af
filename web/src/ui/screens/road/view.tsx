/** What a route says: fuel, water, loads; each supply can be struck out on the spot. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Road, roadOf, type Trouble } from "@/services/along";
import type { Body } from "@/services/road";
import { Cautions } from "@/ui/parts/cautions";
import type { Post } from "@/ui/parts/drawing/bands";
import { type BookView, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { range } from "@/ui/text/cautions";
import { words } from "@/ui/text/road";
import { Loads } from "./loads";
import { postOf, Supplied } from "./supplied";

interface Props {
  readonly view: BookView;
  readonly route: Body;
  /** Null: as far as the odometer tells. */
  readonly from_km: number | null;
  readonly onStrike: (supply: number) => void;
}

export function RoadView({ view, route, from_km, onStrike }: Props): JSX.Element {
  const { clock } = useServices();
  const { road, trouble } = useMemo(
    () => roadOf(view.book, route, clock.now(), from_km),
    [view.book, route, from_km],
  );
  return (
    <>
      {trouble ? <Notice tone="warn">{troubleWords(trouble)}</Notice> : null}
      {road ? <Answers {...{ view, route, road, onStrike }} /> : null}
      <Cautions lines={range} />
    </>
  );
}

function Answers({
  view,
  route,
  road,
  onStrike,
}: Omit<Props, "from_km"> & { readonly road: Road }): JSX.Element {
  const { fuel, water, loads } = road;
  return (
    <div class="columns">
      <div>
        <Supplied holds="fuel" along={fuel} {...{ view, route, onStrike }} />
      </div>
      <div>
        <Supplied holds="water" along={water} {...{ view, route, onStrike }} />
      </div>
      <div>
        <Loads loads={loads} posts={postsOf(route, road)} book={view.book} terms={view.terms} />
      </div>
    </div>
  );
}

function postsOf({ supplies = [] }: Body, { from_km }: Road): Post[] {
  return (supplies as readonly Body[]).filter((one) => one.at_km >= from_km).map((one) => postOf(one));
}

function troubleWords({ field, value, message }: Trouble): string {
  return words.trouble[field]?.(value as number) ?? message;
}

/** A route's record with some supplies struck out, or put back, by somebody who only looks. */
export function struck(route: Body, said: Readonly<Record<number, boolean>>): Body {
  const supplies = (route.supplies ?? []) as readonly Body[];
  const as = (shut: boolean) => ({ shut, fuel_shut: shut, water_shut: shut, what_if: true });
  return { ...route, supplies: supplies.map((one, n) => (n in said ? { ...one, ...as(said[n]!) } : one)) };
}

/** What is only looked at after one more touch: the other way round, or no longer. */
export function struckOnce(
  route: Body,
  said: Readonly<Record<number, boolean>>,
  n: number,
): Readonly<Record<number, boolean>> {
  if (n in said) return Object.fromEntries(Object.entries(said).filter(([one]) => Number(one) !== n));
  const { shut, fuel_shut, water_shut, fuel, water } = route.supplies[n];
  return { ...said, [n]: !(shut || ((fuel_shut || !fuel) && (water_shut || !water))) };
}
