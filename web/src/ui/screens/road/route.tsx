/** One route: where the vehicle is on it, what can be counted on, and what changes if a supply is shut. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Row as Record } from "@/services/answers";
import { type Body, reportBody, reportedRoute } from "@/services/road";
import { lastOdometer, lengthOf } from "@/services/way";
import { gpxOf, located } from "@/services/waypoints";
import { saveFile } from "@/ui/parts/file";
import { NumberField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { useWhere, Where } from "@/ui/parts/where";
import { words as reports } from "@/ui/text/reports";
import { words } from "@/ui/text/road";
import { readTyped } from "@/units/typed";
import { postOf } from "./supplied";
import { RoadView, struck, struckOnce } from "./view";

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
  const known = useMemo(() => reportedRoute(view.book, row.body, clock.now()), [view.book, row]);
  const route = useMemo(() => struck(known, said), [known, said]);
  const where = useWhere(view, row);
  const read = readTyped(typed, { dimension: "distance", low: 0, high: lengthOf(row.body), name: words.at });
  const strike = (n: number) => setSaid(struckOnce(known, said, n));
  const put = (value: typeof typed) => {
    setTyped(value);
    const at = readTyped(value, { dimension: "distance", low: 0, high: lengthOf(row.body), name: words.at });
    const odometer_km = lastOdometer(view.book);
    if (at.kind === "ok")
      where?.choose({ route: row.id, anchor: { how: "typed", at_km: at.base, odometer_km } });
    if (at.kind === "blank") where?.choose({ route: row.id, anchor: null });
  };
  const mayWrite = view.role !== "co_driver";
  const save = (change: Record["body"]) => records.edit(view.id, "route", row.id, change);
  const last = lastOdometer(view.book);
  return (
    <Screen title={row.body.name} back={`/b/${view.id}/road`} aside={view.name}>
      <RoadView view={view} route={route} from_km={where?.from_km ?? null} onStrike={strike} />
      <Looking view={view} route={known} said={said} done={() => setSaid({})} />
      <Section title={words.where}>
        {where ? <Where view={view} where={where} row={row} /> : null}
        <NumberField
          label={words.at}
          hint={words.atHint}
          value={typed}
          units={["km", "mi"]}
          error={read.kind === "wrong" ? read.message : null}
          ask={read.kind === "ask" ? read.choices : null}
          onChange={put}
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

interface LookingProps {
  readonly view: BookView;
  readonly route: Body;
  readonly said: Readonly<{ [supply: number]: boolean }>;
  readonly done: () => void;
}

/** While somebody only looks: what differs, and the two ways out, for everybody or as it was. */
function Looking({ view, route, said, done }: LookingProps): JSX.Element | null {
  const { records, clock } = useServices();
  const list = Object.entries(said).map(([n, shut]) => ({
    name: route.supplies[Number(n)].name as string,
    shut,
  }));
  if (list.length === 0) return null;
  const told = list.map(({ name, shut }) => reports.is(name, shut)).join(", ");
  const say = async () => {
    const happened = { at: clock.now(), zone: clock.zone() };
    const entry = ({ name, shut }: (typeof list)[number]) => reportBody(name, shut ? "shut" : "open");
    await records.logAll(
      list.map((one) => ({ book: view.id, kind: "event", body: { ...happened, ...entry(one) } })),
    );
    done();
  };
  return (
    <>
      <Notice>{reports.looking(told)}</Notice>
      {view.role === "fitter" ? null : <Row label={reports.say(told)} onTouch={() => void say()} />}
      <Row label={words.back} onTouch={done} />
    </>
  );
}
