/** All entries of a book, newest first; what was corrected stays visible. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { Action } from "@/ui/parts/action";
import { TextField } from "@/ui/parts/forms";
import { type BookView, type LogLine, useBook, useLog, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { momentOf } from "@/ui/text/figures";
import { entryOf } from "@/ui/text/findings";
import { describe, words } from "@/ui/text/log";
import { Move } from "./move";
import { Surface } from "./surface";
import "@/ui/parts/struck.css";

/** A log that came in as a list has thousands. */
const PAGE = 200;

export default function LogScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  const lines = useLog(id);
  const [picked, setPicked] = useState<string | null>(null);
  const [shown, setShown] = useState(PAGE);
  if (!view || !lines) return null;
  return (
    <Screen title={view.name} back={`/b/${id}`} aside={words.title} narrow>
      {lines.length === 0 ? <p class="hint">{words.empty}</p> : null}
      <Row label={words.lists} to={`/b/${id}/import`} />
      {lines.slice(0, shown).map((line) => (
        <div key={line.row.id} class={line.corrected ? "entry entry-struck" : "entry"}>
          <Row
            label={describe(line.row, view.book)}
            said={line.waiting ? words.waiting : ""}
            note={noteOf(line, view)}
            {...(line.corrected
              ? {}
              : { onTouch: () => setPicked(picked === line.row.id ? null : line.row.id) })}
          />
          {picked === line.row.id ? <Picked view={view} line={line} done={() => setPicked(null)} /> : null}
        </div>
      ))}
      {lines.length > shown ? (
        <Row label={words.earlier(lines.length - shown)} onTouch={() => setShown(shown + PAGE)} />
      ) : null}
    </Screen>
  );
}

function noteOf({ row, corrected }: LogLine, { members }: BookView): string {
  const by = members.length > 1 ? members.find((one) => one.user === row.author)?.name : undefined;
  const told = [momentOf(row.body.at, row.body.zone), by, corrected ? words.struck : undefined];
  return told.filter(Boolean).join(" · ");
}

interface PickedProps {
  readonly view: BookView;
  readonly line: LogLine;
  readonly done: () => void;
}

/** What may be done with an entry: each is an entry of its own, and both stay visible. */
function Picked({ view, line: { row }, done }: PickedProps): JSX.Element {
  const { records } = useServices();
  const [reason, setReason] = useState("");
  const [error, setError] = useState<string | null>(null);
  const strike = async () => {
    if (reason.trim() === "") return setError(words.needReason);
    await records.log(view.id, "correction", { of_id: row.id, what: "struck_out", reason: reason.trim() });
    return done();
  };
  const typed = entryOf(view.book, row.id) !== undefined;
  return (
    <div>
      {row.kind === "weighing" ? <Row label={words.open} to={`/b/${view.id}/weighing/${row.id}`} /> : null}
      {typed && row.body.surface ? <Surface view={view} row={row} done={done} /> : null}
      {typed ? <Row label={words.correct} to={`/b/${view.id}/correct/${row.id}`} /> : null}
      {typed ? <Move view={view} row={row} done={done} /> : null}
      <TextField label={words.reason} value={reason} onChange={setReason} error={error} />
      <Action label={words.strike} kind="plain" onTouch={strike} />
    </div>
  );
}
