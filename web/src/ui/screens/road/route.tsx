/** One route: where the vehicle is on it, what can be counted on, and what changes if a supply is shut. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Row as Record } from "@/services/answers";
import { placed } from "@/services/road";
import { gpxOf, located } from "@/services/waypoints";
import { saveFile } from "@/ui/parts/file";
import { NumberField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { lastOdometer } from "@/ui/screens/fuel/entry";
import { km, words } from "@/ui/text/road";
import { readTyped } from "@/units/typed";
import { postOf } from "./supplied";
import { RoadView, struck } from "./view";

interface Props {
  readonly book: string;
  readonly route: string;
}

export default function RouteScreen({ book, route }: Props): JSX.Element | null {
  const view = useBook(book);
  const row = view?.book.routes.find((one) => one.id === route);
  return view && row ? <Route key={route} view={view} row={row} /> : null;
}

function Route({ view, row }: { readonly view: BookView; readonly row: Record }): JSX.Element {
  const { clock, records } = useServices();
  const [said, setSaid] = useState<Readonly<{ [supply: number]: boolean }>>({});
  const [typed, setTyped] = useState({ text: "", unit: "km" });
  const route = useMemo(() => struck(row.body, said), [row, said]);
  const total = (row.body.legs as { distance_km: number }[]).reduce((sum, leg) => sum + leg.distance_km, 0);
  const read = readTyped(typed, { dimension: "distance", low: 0, high: total, name: words.at });
  const by_odometer = placed(view.book, row.body, clock.now());
  const strike = (n: number) => setSaid({ ...said, [n]: !route.supplies[n].shut });
  const mayWrite = view.role !== "co_driver";
  const save = (change: Record["body"]) => records.edit(view.id, "route", row.id, change);
  const last = lastOdometer(view.book);
  return (
    <Screen title={row.body.name} back={`/b/${view.id}/road`} aside={view.name}>
      <RoadView view={view} route={route} from_km={read.kind === "ok" ? read.base : null} onStrike={strike} />
      {Object.keys(said).length === 0 ? null : (
        <>
          {mayWrite ? (
            <Row
              label={words.keep}
              onTouch={() => save({ supplies: route.supplies }).then(() => setSaid({}))}
            />
          ) : null}
          <Row label={words.back} onTouch={() => setSaid({})} />
        </>
      )}
      <Section title={words.where}>
        <NumberField
          label={words.at}
          hint={words.atHint(km(by_odometer))}
          value={typed}
          units={["km", "mi"]}
          error={read.kind === "wrong" ? read.message : null}
          ask={read.kind === "ask" ? read.choices : null}
          onChange={setTyped}
        />
        {mayWrite && last !== null ? (
          <Row label={words.begun} onTouch={() => void save({ begun_odometer_km: last })} />
        ) : null}
        {located(route.supplies).length > 0 ? (
          <Row
            label={words.toGpx}
            onTouch={() =>
              saveFile(
                `${row.body.name}.gpx`,
                gpxOf(route.supplies, (one) => postOf(one).told),
                "application/gpx+xml",
              )
            }
          />
        ) : null}
        {mayWrite ? <Row label={words.edit} to={`/b/${view.id}/road/${row.id}/edit`} /> : null}
      </Section>
    </Screen>
  );
}
