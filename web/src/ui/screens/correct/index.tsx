/** An entry of the log corrected: a new one that points at it, from the form that it was typed into. */
import type { JSX } from "preact";
import type { Row } from "@/services/answers";
import { useBook, useServices } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { SmallEntry } from "@/ui/screens/entry";
import { whatOf } from "@/ui/screens/entry/spec";
import { FillEntry } from "@/ui/screens/fuel";
import { formOfFill } from "@/ui/screens/fuel/entry";
import { formOfDip } from "@/ui/screens/level/dip";
import { DipEntry, type DipEntryProps } from "@/ui/screens/level/levels";
import { WaterEntry } from "@/ui/screens/water";
import { formOfWater } from "@/ui/screens/water/entry";
import { words } from "@/ui/text/entry";
import { entryOf } from "@/ui/text/findings";
import { describe } from "@/ui/text/log";

interface Props {
  readonly book: string;
  readonly entry: string;
}

export default function CorrectScreen({ book, entry }: Props): JSX.Element | null {
  const view = useBook(book);
  const { go } = useServices();
  if (!view) return null;
  const row = entryOf(view.book, entry);
  const back = `/b/${book}/log`;
  if (!row)
    return (
      <Screen title={words.correct} back={back} aside={view.name} narrow>
        <p>{words.notHere}</p>
      </Screen>
    );
  const { at, zone } = row.body;
  const common = { view, onSaved: () => go(back, { replace: true }) };
  const beside = { ...unasked(row), at, zone, corrects: row.id };
  const small = whatOf(row);
  const name = `correct:${view.id}:${row.id}`;
  return (
    <Screen title={words.correct} back={back} aside={view.name} narrow>
      <p class="hint">{words.instead(describe(row, view.book))}</p>
      {row.kind === "fill" ? (
        <FillEntry {...common} name={name} initial={formOfFill(row)} beside={beside} />
      ) : null}
      {row.kind === "water" ? (
        <WaterEntry {...common} name={name} initial={formOfWater(row)} beside={beside} />
      ) : null}
      {row.kind === "dip" ? <Dip {...{ ...common, row, name, beside }} /> : null}
      {small ? <SmallEntry {...common} what={small} row={row} /> : null}
    </Screen>
  );
}

/** What no form of an entry asks for stays as it was. */
const UNASKED: Readonly<Record<string, readonly string[]>> = {
  fill: ["place", "note"],
  water: ["place", "note"],
  dip: ["surface", "towing", "note"],
};

function unasked({ kind, body }: Row): Row["body"] {
  const there = (UNASKED[kind] ?? []).filter((name) => body[name] != null);
  return Object.fromEntries(there.map((name) => [name, body[name]]));
}

interface DipProps extends Pick<DipEntryProps, "view" | "name" | "beside" | "onSaved"> {
  readonly row: Row;
}

/** A level read: of a tank that is still there. */
function Dip({ row, ...rest }: DipProps): JSX.Element {
  const tank = rest.view.book.tanks.find((one) => one.id === row.body.tank_id);
  return tank ? <DipEntry {...rest} tank={tank} initial={formOfDip(row)} /> : <p>{words.noTank}</p>;
}
