/** What a route says: fuel, water, loads; each supply can be struck out on the spot. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Body, type Road, roadOf, type Trouble } from "@/services/road";
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
        <Supplied holds="fuel" along={fuel} {...{ route, onStrike }} />
      </div>
      <div>
        <Supplied holds="water" along={water} {...{ route, onStrike }} />
      </div>
      <div>
        <Loads loads={loads} posts={postsOf(route, road)} book={view.book} terms={view.terms} />
      </div>
    </div>
  );
}

function postsOf({ supplies = [] }: Body, { from_km }: Road): Post[] {
  return (supplies as readonly Body[]).filter((one) => one.at_km >= from_km).map(postOf);
}

function troubleWords({ field, value, message }: Trouble): string {
  return words.trouble[field]?.(value as number) ?? message;
}

/** A route's record with some supplies struck out, or put back. */
export function struck(route: Body, said: Readonly<Record<number, boolean>>): Body {
  const supplies = (route.supplies ?? []) as readonly Body[];
  return { ...route, supplies: supplies.map((one, n) => (n in said ? { ...one, shut: said[n] } : one)) };
}
