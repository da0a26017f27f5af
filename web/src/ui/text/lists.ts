/** Words of lists that come in from a file, and go out into one. */
import type { CellError, ListField } from "@/services/lists/spec";

/** Short names of fields, over a column and in what is wrong with a cell; else the field's own. */
export const LABELS: Readonly<Record<string, string>> = {
  nature: "Part or load",
  known_by: "Mass known by",
  count: "How many",
  trailer_id: "On which trailer",
  x_m: "Place",
  x_u_m: "u of the place",
  y_m: "Right of the middle",
  z_m: "Height",
  mass_u_kg: "u of the mass",
  mass_unit: "Unit of the mass",
  position_by: "Place known by",
  roof: "On the roof",
  taken_off: "Taken off as delivered",
  keep_aboard: "Always stays aboard",
  holds: "Holds",
  can: "A can",
  note: "Note",
  day: "Date",
  time: "Time",
  odometer_km: "Odometer",
  litres_l: "Litres",
  full: "Full to the click",
  tank_id: "Tank",
  price: "Price",
  currency: "Currency",
  missed_before: "One missed before",
  towing: "Towing",
  measured: "Measured by a meter",
  sealed: "Share sealed",
  gravel: "Share gravel",
  sand: "Share sand",
  place: "Name of the place",
  instant: "Moment (UTC)",
  zone: "Zone",
  action: "What was done",
  source: "Source",
  drinkable: "Drinkable",
};

export const words = {
  title: "Lists in and out",
  kind: "What is in the list?",
  kinds: { item: "Items", tank: "Tanks", seat: "Seats", fill: "Fuel log", water: "Water log" } as Readonly<
    Record<string, string>
  >,
  give: "Save a list as a file",
  rows: (count: number) => (count === 0 ? "nothing yet" : count === 1 ? "1 row" : `${count} rows`),
  bring: "Bring a list in",
  file: "A file with columns (CSV)",
  paste: "Or paste the rows here",
  pasteHint: "From a spreadsheet: copy the cells, headings too, and paste them.",
  found: (name: string, encoding: string, rows: number) =>
    `${name ? `${name}, read as ${encoding}: ` : ""}${rows} ${rows === 1 ? "row" : "rows"}`,
  other: "Take another list",
  tooLarge: (megabytes: number) =>
    `This file has ${megabytes} MB; at most 5 MB can be read. Split it into several.`,
  tooMany: (rows: number) => `These are ${rows} rows; at most 10 000 come in at once. Split the list.`,
  unclosed: (row: number) => `A quotation mark is never closed in row ${row}. Look at the list there.`,
  how: "How it is read",
  delimiter: "What parts the columns?",
  delimiters: { ",": "Comma", ";": "Semicolon", "\t": "Tab" } as Readonly<Record<string, string>>,
  decimal: "Decimal mark",
  decimals: { ",": "Comma: 1,5", ".": "Point: 1.5" } as Readonly<Record<string, string>>,
  header: "Is the first row headings?",
  columns: "What each column is",
  column: (index: number, title: string) => title || `Column ${index + 1}`,
  notRead: "Not read",
  unitOf: (label: string) => `Unit of ${label}`,
  chooseUnit: "Choose a unit",
  questions: "To be said first",
  askFigures: (field: string, text: string) => `${field}: what does ${text} mean in this column?`,
  askUnit: (field: string) => `${field}: in which unit? Choose it at its column.`,
  askDays: (field: string, text: string) => `${field}: what does ${text} mean in this column?`,
  orders: { dmy: "Day, month, year", mdy: "Month, day, year" } as Readonly<Record<string, string>>,
  askColumn: (field: string) => `${field}: which column has it? Choose it below.`,
  currencyHint: "Three letters, such as EUR or AUD",
  addTank: "The plan has no fuel tank: add one first",
  askAll: (field: string) => `${field}: what holds for all rows without it?`,
  preview: "As they will be kept",
  counts: (n: Readonly<Record<string, number>>) =>
    [
      n.wrong ? `${n.wrong} not readable` : "",
      `${n.new ?? 0} new`,
      n.change ? `${n.change} changed` : "",
      n.same ? `${n.same} the same as now` : "",
      n.there ? `${n.there} already there` : "",
      n.left ? `${n.left} left out` : "",
    ]
      .filter(Boolean)
      .join(", "),
  row: (number: number) => `Row ${number}`,
  leave: "Touch a row to leave it out.",
  take: "left out; touch to take it in",
  fromTo: (label: string, before: string, after: string) => `${label} ${before} → ${after}`,
  blank: "blank",
  yes: "yes",
  no: "no",
  more: (count: number) => `Show ${count} more`,
  leaveWrong: "Leave out all that cannot be read",
  save: (count: number) => (count === 1 ? "Take 1 row in" : `Take ${count} rows in`),
  nothing: "No row to take in",
  first: "Not yet: answer the questions above, and put right or leave out the rows that cannot be read.",
  progress: (done: number, all: number) => `${done} of ${all} written`,
  saved: (count: number) => (count === 1 ? "1 row is in." : `${count} rows are in.`),
  there: "already there, or twice in this list",
  toPlan: "To the plan",
  toLog: "To the log",
  roles: {
    co_driver: "The plan is written by owners and fitters; as co-driver you can bring in a log.",
    fitter: "The log is written by owners and co-drivers; as fitter you can bring in lists of the plan.",
  },
};

/** What is wrong with a cell: the field, what stands there, what is allowed. */
export function wrongCell({ field, text, why, message }: CellError): string {
  return message ?? `${field.label}: ${text ? `"${text}" ` : ""}${WHY[why](field)}.`;
}

const WHY: Readonly<Record<CellError["why"], (field: ListField) => string>> = {
  figure: () => "cannot be read",
  whole: (field) =>
    `is not a whole number${field.type === "count" ? ` from ${field.low} to ${field.high}` : ""}`,
  choice: (field) =>
    `is none of ${field.type === "choice" ? field.options.map(([, label]) => label.split(",")[0]).join(", ") : ""}`,
  yes_no: () => "is neither yes nor no",
  long: (field) => `has more than ${field.type === "text" ? field.longest : ""} characters`,
  day: () => "is not a day, such as 2026-03-04",
  late: () => "is later than now",
  time: () => "is not a time, such as 17:05",
  currency: () => "is not a currency's three letters",
  amount: () => "is not an amount, such as 123.45",
  blank: () => "is blank, and a new one needs it",
  unit: () => "is not a unit of mass: kg, t, g or lb",
};
