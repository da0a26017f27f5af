/** All entries of a book, newest first; what was corrected stays visible. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { Action } from "@/ui/parts/action";
import { TextField } from "@/ui/parts/forms";
import { type BookView, type LogLine, useBook, useLog, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { momentOf } from "@/ui/text/figures";
import { describe, words } from "@/ui/text/log";
import "@/ui/parts/struck.css";

export default function LogScreen({ book: id }: { readonly book: string }): JSX.Element | null {
  const view = useBook(id);
  const lines = useLog(id);
  const [picked, setPicked] = useState<string | null>(null);
  if (!view || !lines) return null;
  return (
    <Screen title={view.name} back={`/b/${id}`} aside={words.title} narrow>
      {lines.length === 0 ? <p class="hint">{words.empty}</p> : null}
      {lines.map((line) => (
        <div key={line.row.id} class={line.corrected ? "entry entry-struck" : "entry"}>
          <Row
            label={describe(line.row, view.book)}
            said={line.waiting ? words.waiting : ""}
            note={noteOf(line)}
            {...(line.corrected
              ? {}
              : { onTouch: () => setPicked(picked === line.row.id ? null : line.row.id) })}
          />
          {picked === line.row.id ? <Strike view={view} line={line} done={() => setPicked(null)} /> : null}
        </div>
      ))}
    </Screen>
  );
}

function noteOf({ row, corrected }: LogLine): string {
  const when = momentOf(row.body.at, row.body.zone);
  return corrected ? `${when} · ${words.struck}` : when;
}

interface StrikeProps {
  readonly view: BookView;
  readonly line: LogLine;
  readonly done: () => void;
}

/** Striking out is an entry of its own with a reason; both stay visible. */
function Strike({ view, line, done }: StrikeProps): JSX.Element {
  const { clock, records } = useServices();
  const [reason, setReason] = useState("");
  const [error, setError] = useState<string | null>(null);
  const strike = async () => {
    if (reason.trim() === "") return setError(words.needReason);
    const what = { of_id: line.row.id, what: "struck_out", reason: reason.trim() };
    await records.log(view.id, "correction", { at: clock.now(), zone: clock.zone(), ...what });
    return done();
  };
  return (
    <div>
      {line.row.kind === "weighing" ? (
        <Row label={words.open} to={`/b/${view.id}/weighing/${line.row.id}`} />
      ) : null}
      <TextField label={words.reason} value={reason} onChange={setReason} error={error} />
      <Action label={words.strike} kind="plain" onTouch={strike} />
    </div>
  );
}
