/** Where a list comes from: a file, or rows that were copied. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { Notice } from "@/ui/parts/notice";
import { FileField, LongField } from "@/ui/parts/pick";
import { Row } from "@/ui/parts/row";
import { words } from "@/ui/text/lists";
import { decodeList } from "@/units/csv";
import { type ListForm, MOST_ROWS, type Reading } from "./reading";

const MOST_BYTES = 5_000_000;

interface SourceProps {
  readonly form: ListForm;
  readonly reading: Reading | null;
  readonly onChange: (form: ListForm) => void;
  readonly onDrop: () => void;
}

export function Source({ form, reading, onChange, onDrop }: SourceProps): JSX.Element {
  const [trouble, setTrouble] = useState<string | null>(null);
  const choose = async (file: File) => {
    setTrouble(null);
    if (file.size > MOST_BYTES) return setTrouble(words.tooLarge(Math.ceil(file.size / 1e6)));
    const { text, encoding } = decodeList(new Uint8Array(await file.arrayBuffer()));
    onChange({ ...form, text, file: { name: file.name, encoding }, said: {} });
  };
  if (form.file === null)
    return (
      <>
        <FileField label={words.file} accept=".csv,.tsv,.txt,text/csv,text/plain" onChoose={choose} />
        {trouble ? <Notice tone="warn">{trouble}</Notice> : null}
        <LongField
          label={words.paste}
          value={form.text}
          onChange={(text) => onChange({ ...form, text, said: text === "" ? {} : form.said })}
        />
        <p class="hint">{words.pasteHint}</p>
      </>
    );
  const rows = reading?.layout.rows.length ?? 0;
  return (
    <>
      <p>{words.found(form.file.name, form.file.encoding, rows)}</p>
      {rows > MOST_ROWS ? <Notice tone="warn">{words.tooMany(rows)}</Notice> : null}
      <Row label={words.other} onTouch={onDrop} />
    </>
  );
}
