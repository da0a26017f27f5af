/**
 * Lists as text, in and out, by RFC 4180: quotes, doubled quotes, line ends within quotes. Written here and not taken
 * from a library: this reader is forty lines, while a parser from the registry brings about 7 kB of the offline shell's
 * 250, for streams and workers that a list of some thousand rows does not need.
 */

export interface Decoded {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16" | "Windows-1252";
}

/** A file's text: UTF-8 with or without its mark, UTF-16 by its mark, and what is neither is Windows-1252. */
export function decodeList(bytes: Uint8Array): Decoded {
  const wide = WIDE[`${bytes[0]} ${bytes[1]}`];
  if (wide) return { text: new TextDecoder(wide).decode(bytes), encoding: "UTF-16" };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8" };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(bytes), encoding: "Windows-1252" };
  }
}

// the byte-order mark of either order, as its two bytes
const WIDE: Readonly<Record<string, string>> = { "255 254": "utf-16le", "254 255": "utf-16be" };

export interface Records {
  readonly records: readonly (readonly string[])[];
  /** The record, counted from 1, whose quote is never closed; null when all are. */
  readonly unclosed: number | null;
}

/** All records of a text; an empty line is a record of one empty field. A quote counts only where a field begins. */
export function parseCsv(text: string, delimiter: string): Records {
  const records: string[][] = [];
  const record: string[] = [];
  let field = "";
  let quoted = false;
  const end = (last: boolean) => {
    record.push(field);
    field = "";
    if (last) records.push(record.splice(0));
  };
  for (let i = text.startsWith("\ufeff") ? 1 : 0; i < text.length; i++) {
    const char = text[i]!;
    if (quoted && char === '"' && text[i + 1] === '"') field += text[++i];
    else if (quoted) [quoted, field] = char === '"' ? [false, field] : [true, field + char];
    else if (char === '"' && field === "") quoted = true;
    else if (char === delimiter) end(false);
    else if (char === "\n" || char === "\r") {
      if (char === "\r" && text[i + 1] === "\n") i++;
      end(true);
    } else field += char;
  }
  if (field !== "" || record.length > 0) end(true);
  return { records, unclosed: quoted ? records.length : null };
}

export const DELIMITERS = ["\t", ";", ","] as const;

/** The delimiter that cuts most rows into one and the same number of fields, more than one; of equals the rarer mark. */
export function delimiterOf(text: string): string {
  const start = text.slice(0, 20_000);
  const scored = DELIMITERS.map((mark) => {
    const rows = parseCsv(start, mark).records.filter((row) => row.some((cell) => cell.trim() !== ""));
    const counts = new Map<number, number>();
    for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
    counts.delete(1);
    return { mark, share: Math.max(0, ...counts.values()) / Math.max(1, rows.length) };
  });
  const best = scored.reduce((a, b) => (b.share > a.share ? b : a));
  return best.share > 0 ? best.mark : ",";
}

export type Cell = string | number | null;

/** A file of records: commas, CRLF, numbers with a decimal point, behind the mark by which spreadsheets know UTF-8. */
export function writeCsv(records: readonly (readonly Cell[])[]): string {
  return `\ufeff${records.map((one) => `${one.map(written).join(",")}\r\n`).join("")}`;
}

function written(cell: Cell): string {
  if (cell === null) return "";
  const text = typeof cell === "number" ? decimal(cell) : harmless(cell);
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Without an exponent, and so that it reads back as the same number. */
function decimal(value: number): string {
  const text = String(value);
  return text.includes("e-") ? value.toFixed(20).replace(/\.?0+$/, "") : text;
}

// what a spreadsheet would take for the beginning of a formula, the full-width forms included
const FORMULA = /^'*[=+\-@\t\r\0\uff1d\uff0b\uff0d\uff20]/;

/** Text that no spreadsheet runs as a formula: an apostrophe before it. Numbers never come here and stay numbers. */
function harmless(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

/** The text again without the apostrophe that `writeCsv` put before it. */
export function unharmed(text: string): string {
  return text.startsWith("'") && FORMULA.test(text) ? text.slice(1) : text;
}
