/** An entry of the log corrected: a new one that points at it, from the form that it was typed into. */
import type { JSX } from "preact";
import type { Row } from "@/services/answers";
import { useBook, useServices } from "@/ui/parts/live";
import { Screen } from "@/ui/parts/screen";
import { SmallEntry } from "@/ui/screens/entry";
import { whatOf } from "@/ui/screens/entry/spec";
import { FillEntry } from "@/ui/screens/fuel";
import { formOfFill, fuelTanks } from "@/ui/screens/fuel/entry";
import { formOfDip } from "@/ui/screens/level/dip";
import { DipEntry, type DipEntryProps } from "@/ui/screens/level/levels";
import { WaterEntry } from "@/ui/screens/water";
import { formOfWater } from "@/ui/screens/water/entry";
import { words } from "@/ui/text/entry";
import { entryOf } from "@/ui/text/findings";
import { describe } from "@/ui/text/log";
import { fillKept, unasked, waterKept } from "./kept";

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
        <FillEntry
          {...{ ...common, name, beside }}
          initial={formOfFill(row)}
          keep={(form, body) => fillKept(row, form, body, idsOf(fuelTanks(view.book)))}
        />
      ) : null}
      {row.kind === "water" ? (
        <WaterEntry
          {...{ ...common, name, beside }}
          initial={formOfWater(row)}
          keep={(form, body) => waterKept(row, form, body)}
        />
      ) : null}
      {row.kind === "dip" ? <Dip {...{ ...common, row, name, beside }} /> : null}
      {small ? <SmallEntry {...common} what={small} row={row} /> : null}
    </Screen>
  );
}

const idsOf = (rows: readonly Row[]) => rows.map(({ id }) => id);

interface DipProps extends Pick<DipEntryProps, "view" | "name" | "beside" | "onSaved"> {
  readonly row: Row;
}

/** A level read: of a tank that is still there. */
function Dip({ row, ...rest }: DipProps): JSX.Element {
  const tank = rest.view.book.tanks.find((one) => one.id === row.body.tank_id);
  return tank ? <DipEntry {...rest} tank={tank} initial={formOfDip(row)} /> : <p>{words.noTank}</p>;
}
