/** Consumption as it was: by surface over the way, from full tank to full tank, and what it cost. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { type Past, pastOf } from "@/services/past";
import { type BookView, useBook } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { figure, km, twoSided, withReach } from "@/ui/text/figures";
import { words as fuelWords } from "@/ui/text/fuel";
import { words } from "@/ui/text/past";
import { RateCurve } from "./rate_curve";

export default function ConsumptionScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  return view ? <Consumption view={view} /> : null;
}

function Consumption({ view }: { readonly view: BookView }): JSX.Element {
  const past = useMemo(() => pastOf(view.book), [view.book]);
  const driven = past?.classes.filter((one) => one.points.length > 1) ?? [];
  return (
    <Screen title={words.title} back={`/b/${view.id}/fuel`} aside={view.name}>
      <p class="hint">{driven.length > 0 ? words.explained : words.nothing}</p>
      <div class="columns">
        {driven.map(({ surface, towing, points }) => {
          const name = fuelWords.rateOf(fuelWords.surfaces[surface], towing);
          return <RateCurve key={name} name={name} points={points} />;
        })}
      </div>
      {past ? <Totals view={view} past={past} /> : null}
    </Screen>
  );
}

function Totals({ view, past }: { readonly view: BookView; readonly past: Past }): JSX.Element {
  const { segments, pooled, costs } = past;
  const at = (id: string) => figure(view.book.fills.find((one) => one.id === id)?.body.odometer_km ?? 0);
  return (
    <>
      <Section title={words.fulls}>
        {pooled ? (
          <Row
            label={words.pooled}
            figure={withReach(pooled.mean, twoSided(pooled.u), 1)}
            note={words.perHundred}
          />
        ) : (
          <p class="hint">{words.noFulls}</p>
        )}
        {[...segments].reverse().map((one) => (
          <Row
            key={one.to_id}
            label={words.segment(at(one.from_id), at(one.to_id))}
            figure={withReach(one.l_per_100km, twoSided(one.u), 1)}
          />
        ))}
      </Section>
      {costs.length > 0 ? (
        <Section title={words.cost}>
          {costs.map(({ currency, per_100km, distance_km }) => (
            <Row
              key={currency}
              label={words.per(currency)}
              figure={figure(per_100km, 2)}
              note={words.over(km(distance_km))}
            />
          ))}
        </Section>
      ) : null}
    </>
  );
}
