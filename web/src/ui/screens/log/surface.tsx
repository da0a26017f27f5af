/** The surface of the way before an entry, corrected on the spot: what it changes is said before it is kept. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { Action } from "@/ui/parts/action";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useServices } from "@/ui/parts/live";
import { surfaceIn, whollyOn } from "@/ui/screens/fuel/entry";
import { effectWords, words as fuel } from "@/ui/text/fuel";
import { words } from "@/ui/text/log";

interface Props {
  readonly view: BookView;
  readonly row: Entry;
  readonly done: () => void;
}

export function Surface({ view, row, done }: Props): JSX.Element | null {
  const { answers, ids, records } = useServices();
  const was = surfaceIn(row.body.surface);
  const [surface, setSurface] = useState<string>(was);
  const { corrects: _, ...rest } = row.body;
  const body = { ...rest, surface: whollyOn(surface) };
  const told = useMemo(() => {
    if (surface === was) return null;
    const [before, after] = [answers.fuel(view.book), answers.fuelCorrected(view.book, row, body)];
    return before && after ? effectWords(before, after) : [];
  }, [view.book, row, surface]);
  const keep = async () => {
    const id = ids();
    const found = view.book.kept.filter((one) => one.body.of_id === row.id);
    // what somebody has found right stays so with another surface
    const kept = found.map(({ body: said }) => ({
      of_id: id,
      what: "kept",
      other_id: said.other_id ?? null,
    }));
    await records.logAll([
      { book: view.id, kind: row.kind, id, body: { ...body, corrects: row.id } },
      ...kept.map((one) => ({ book: view.id, kind: "correction", body: one })),
    ]);
    done();
  };
  const options = (["sealed", "gravel", "sand"] as const).map((value) => ({
    value,
    label: fuel.surfaces[value],
  }));
  return (
    <>
      <ChoiceField label={words.surface} value={surface} options={options} onChange={setSurface} />
      {told?.map((line) => (
        <p key={line} role="status">
          {line}
        </p>
      ))}
      {told ? (
        <Action label={words.keepSurface(fuel.surfaces[surface] ?? surface)} kind="plain" onTouch={keep} />
      ) : null}
    </>
  );
}
