/**
 * Numbers as people type them: 1,5 is 1.5; 1.234,5 and 1,234.5 and 1 234,5 and 1'234.5 are read right; a sole group of
 * three (1,234 or 1.234) could be either and is asked about, never guessed. What cannot be read is said in words.
 */

export type Parsed =
  | { readonly kind: "number"; readonly digits: string; readonly rest: string }
  | { readonly kind: "ask"; readonly choices: readonly [string, string]; readonly rest: string }
  | { readonly kind: "blank" }
  | { readonly kind: "wrong"; readonly why: "letters" | "separators" }
  | { readonly kind: "wrong"; readonly why: "too_long"; readonly digits: string; readonly rest: string };

const SPACES = /[\s\u00a0\u2009\u202f]/g;
const MINUS = /^[-\u2212\u2013]/;
const GROUPS = /['\u2019]/g;

/** Digits with a decimal point from typed text; `rest` is what followed the number, such as a unit. */
export function parseNumber(text: string): Parsed {
  const plain = latinDigits(text.trim());
  if (plain === "") return { kind: "blank" };
  const found =
    /^([-\u2212\u2013+]?)\s*([\d.,'\u2019\s\u00a0\u2009\u202f]*\d[.,]?|[.,]\d+)\s*([\p{L}%°/. ]*)$/u.exec(
      plain,
    );
  if (!found) return { kind: "wrong", why: "letters" };
  const [, signText = "", body = "", rest = ""] = found;
  const sign = MINUS.test(signText) ? "-" : "";
  const compact = compactGroups(body.trim());
  if (compact === null) return { kind: "wrong", why: "separators" };
  return withSign(readSeparators(compact), sign, rest.trim());
}

type Bare =
  | { readonly kind: "number"; readonly digits: string }
  | { readonly kind: "ask"; readonly choices: readonly [string, string] }
  | { readonly kind: "wrong"; readonly why: "separators" };

/** Takes out spaces and apostrophes that stand between groups of three; null where they stand elsewhere. */
function compactGroups(body: string): string | null {
  const parts = body.split(/[\s\u00a0\u2009\u202f'\u2019]+/);
  const grouped = parts.slice(1).every((part, i, all) => {
    const last = i === all.length - 1;
    return last ? /^\d{3}([.,]\d*)?$/.test(part) : /^\d{3}$/.test(part);
  });
  const head = parts.length === 1 || /^\d{1,3}$/.test(parts[0] ?? "");
  return grouped && head ? body.replace(SPACES, "").replace(GROUPS, "") : null;
}

function readSeparators(body: string): Bare {
  const marks = body.replace(/\d/g, "");
  if (marks === "") return { kind: "number", digits: body };
  if (new Set(marks).size === 2) return twoKinds(body, marks);
  if (marks.length > 1) return sameGroups(body, marks[0]!);
  const [before = "", after = ""] = body.split(marks);
  if (after.length === 3 && /^[1-9]\d{0,2}$/.test(before))
    return { kind: "ask", choices: [`${before}.${after}`, before + after] };
  return { kind: "number", digits: `${before || "0"}${after ? `.${after}` : ""}` };
}

/** Both marks: the last one is the decimal mark, the other parts groups of three (or of two, as in India). */
function twoKinds(body: string, marks: string): Bare {
  const decimal = marks.at(-1)!;
  if (marks.indexOf(decimal) !== marks.length - 1) return { kind: "wrong", why: "separators" };
  const [whole = "", rest = ""] = body.split(decimal);
  if (!/^\d{1,3}([.,]\d{2,3})*[.,]\d{3}$/.test(whole)) return { kind: "wrong", why: "separators" };
  const digits = whole.replace(/[.,]/g, "");
  return { kind: "number", digits: rest ? `${digits}.${rest}` : digits };
}

/** One mark several times can only part groups of three. */
function sameGroups(body: string, mark: string): Bare {
  const [first = "", ...rest] = body.split(mark);
  if (!/^\d{1,3}$/.test(first) || !rest.every((part) => /^\d{3}$/.test(part)))
    return { kind: "wrong", why: "separators" };
  return { kind: "number", digits: first + rest.join("") };
}

function withSign(bare: Bare, sign: string, rest: string): Parsed {
  if (bare.kind === "wrong") return bare;
  if (bare.kind === "ask")
    return { kind: "ask", choices: [sign + bare.choices[0], sign + bare.choices[1]], rest };
  const digits = sign + trimZeros(bare.digits);
  if (digits.replace(/\D/g, "").length > 15) return { kind: "wrong", why: "too_long", digits, rest };
  return { kind: "number", digits, rest };
}

/** Leading zeros go, trailing ones stay: 45.10 stays 45.10. */
function trimZeros(digits: string): string {
  return digits.replace(/^0+(?=\d)/, "");
}

/** Arabic-Indic, extended Arabic-Indic and Devanagari digits, and the Arabic decimal and thousands marks. */
function latinDigits(text: string): string {
  return text
    .replace(/[\u0660-\u0669]/g, (digit) => String(digit.charCodeAt(0) - 0x660))
    .replace(/[\u06f0-\u06f9]/g, (digit) => String(digit.charCodeAt(0) - 0x6f0))
    .replace(/[\u0966-\u096f]/g, (digit) => String(digit.charCodeAt(0) - 0x966))
    .replace(/\u066b/g, ".")
    .replace(/\u066c/g, "'");
}
