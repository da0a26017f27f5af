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

/** A number's digits with a decimal point, as somebody typed them. */
export interface Digits {
  readonly digits: string;
}
export type Cell = string | number | Digits | null;

export interface Form {
  readonly mark: "." | ",";
}

/**
 * A file of records: CRLF, behind the mark by which spreadsheets know UTF-8. Where the decimal mark is a comma,
 * semicolons part the columns, as spreadsheets of such countries have it.
 */
export function writeCsv(records: readonly (readonly Cell[])[], { mark }: Form = { mark: "." }): string {
  const between = mark === "," ? ";" : ",";
  const written = (cell: Cell) => {
    const text =
      typeof cell === "string" ? harmless(cell) : cell === null ? "" : figure(cell).replace(".", mark);
    return text.includes(between) || /["\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return `\ufeff${records.map((one) => `${one.map(written).join(between)}\r\n`).join("")}`;
}

/** Three decimals behind up to three digits could be read as thousands: a zero more, and they cannot. */
function figure(cell: number | Digits): string {
  const text = typeof cell === "number" ? decimal(cell) : cell.digits;
  return /^-?\d{1,3}\.\d{3}$/.test(text) ? `${text}0` : text;
}

/** Without an exponent, and so that it reads back as the same number. */
function decimal(value: number): string {
  const text = String(value);
  return text.includes("e-") ? value.toFixed(20).replace(/\.?0+$/, "") : text;
}

// What a spreadsheet would take for the beginning of a formula, the full-width forms included: where a cell begins, and
// where another mark than the file's would begin one.
const STARTS = "=+\\-@\\t\\r\\n\\0\\uff1d\\uff0b\\uff0d\\uff20";
const FORMULA = new RegExp(`(^|[,;\\t\\r\\n])('*)(?=[${STARTS}])`, "g");
const HARMLESS = new RegExp(`(^|[,;\\t\\r\\n])'('*)(?=[${STARTS}])`, "g");

/** Text that no spreadsheet runs as a formula: an apostrophe before it. Numbers never come here and stay numbers. */
function harmless(text: string): string {
  return text.replace(FORMULA, "$1'$2");
}

/** The text again without the apostrophes that `writeCsv` put into it. */
export function unharmed(text: string): string {
  return text.includes("'") ? text.replace(HARMLESS, "$1$2") : text;
}
