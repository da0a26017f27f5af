/** An entry that belongs to another vehicle: struck here and entered there, in one step. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Row as Entry } from "@/services/answers";
import { Action } from "@/ui/parts/action";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useBook, useBooks, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { words } from "@/ui/text/log";

interface Props {
  readonly view: BookView;
  readonly row: Entry;
  readonly done: () => void;
}

export function Move({ view, row, done }: Props): JSX.Element | null {
  const others = (useBooks() ?? []).filter((one) => one.book !== view.id && one.role !== "fitter");
  const [to, setTo] = useState<string | null>(null);
  if (others.length === 0) return null;
  if (to === null) return <Row label={words.move} onTouch={() => setTo("")} />;
  const options = others.map(({ book, name }) => ({ value: book, label: name }));
  return (
    <>
      <ChoiceField label={words.moveTo} value={to} options={options} onChange={setTo} />
      {to ? <Tanks key={to} view={view} row={row} to={to} done={done} /> : null}
    </>
  );
}

/** Which tank of the other vehicle each tank of the entry is. */
function Tanks({ view, row, to, done }: Props & { readonly to: string }): JSX.Element | null {
  const { records } = useServices();
  const other = useBook(to);
  const [chosen, setChosen] = useState<Readonly<Record<string, string>>>({});
  if (!other) return null;
  const named = tanksOf(row.body);
  const there = (id: string) => {
    const holds = view.book.tanks.find((one) => one.id === id)?.body.holds;
    return other.book.tanks.filter((one) => one.body.holds === holds);
  };
  const tankOf = (id: string) => chosen[id] ?? there(id)[0]?.id;
  if (named.some((id) => there(id).length === 0)) return <p class="field-error">{words.noTankThere}</p>;
  const move = async () => {
    const { corrects: _, ...body } = row.body;
    const correction = { of_id: row.id, what: "other_vehicle", reason: other.name };
    await records.logAll([
      { book: to, kind: row.kind, body: withTanks(body, tankOf) },
      { book: view.id, kind: "correction", body: correction },
    ]);
    done();
  };
  return (
    <>
      {named.map((id) => (
        <ChoiceField
          key={id}
          label={words.tankThere(view.book.tanks.find((one) => one.id === id)?.body.name ?? "")}
          value={tankOf(id) ?? ""}
          options={there(id).map((one) => ({ value: one.id, label: one.body.name }))}
          onChange={(tank) => setChosen({ ...chosen, [id]: tank })}
        />
      ))}
      <Action label={words.moveNow(other.name)} kind="plain" onTouch={move} />
    </>
  );
}

const NAMES = ["tank_id", "from_tank_id", "to_tank_id"] as const;

function tanksOf(body: Entry["body"]): string[] {
  const lines: Entry["body"][] = body.lines ?? [];
  const ids = [...lines.map((line) => line.tank_id), ...NAMES.map((name) => body[name])];
  return [...new Set(ids.filter(Boolean))];
}

function withTanks(body: Entry["body"], tankOf: (id: string) => string | undefined): Entry["body"] {
  const named = NAMES.filter((name) => body[name]).map((name) => [name, tankOf(body[name])]);
  const lines = body.lines?.map((line: Entry["body"]) => ({ ...line, tank_id: tankOf(line.tank_id) }));
  return { ...body, ...Object.fromEntries(named), ...(lines ? { lines } : {}) };
}
