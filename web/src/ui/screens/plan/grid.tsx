/**
 * A table whose cells are edited with the keyboard: arrows go from cell to cell, typing or Enter opens one, Enter
 * keeps it and goes down, Tab goes across, Escape leaves it as it was.
 */
import type { JSX } from "preact";
import type { Book, Row as Entry } from "@/services/answers";
import { Link } from "@/ui/parts/link";
import { still } from "@/ui/parts/still";
import { words } from "@/ui/text/plan";
import { columnsOf, opened, type Trouble, told } from "./cells";
import type { FieldSpec } from "./fields";
import type { FormValue } from "./form";
import { optionsOf } from "./on";
import type { Listing } from "./tables";
import { CellTrouble } from "./trouble";
import type { Acts } from "./typing";

export function Grid({ kind, rows, view, path, cells, mayEdit, picked, onPick }: Listing): JSX.Element {
  const { typing, trouble, act } = cells;
  return (
    // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a grid is a table that the arrow keys walk (ARIA APG)
    <table class="plan-grid" role="grid" aria-label={words.kinds[kind]!} onKeyDown={walk} onFocusIn={rove}>
      <thead>
        <tr>
          {columnsOf(kind, view.book).map((column) => (
            <th key={column.name} scope="col" class={inWords(column) ? "plan-words" : ""}>
              {words.columns[column.name]}
            </th>
          ))}
          <th scope="col">
            <span class="visually-hidden">{words.more}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, at) => {
          const mine = typing?.id === row.id ? typing : null;
          return (
            <Line
              key={row.id}
              kind={kind}
              row={row}
              book={view.book}
              to={`${path}/${row.id}`}
              open={mine?.name ?? null}
              value={mine?.value ?? null}
              trouble={mine ? trouble : null}
              picked={picked?.id === row.id}
              first={at === 0}
              act={mayEdit ? act : null}
              onPick={onPick}
            />
          );
        })}
      </tbody>
    </table>
  );
}

function inWords({ type }: FieldSpec): boolean {
  return type !== "number" && type !== "count";
}

interface LineProps {
  readonly kind: string;
  readonly row: Entry;
  readonly book: Book;
  readonly to: string;
  readonly open: string | null;
  readonly value: FormValue;
  readonly trouble: Trouble | null;
  readonly picked: boolean;
  readonly first: boolean;
  readonly act: Acts | null;
  readonly onPick: (id: string) => void;
}

const Line = still(function Line(props: LineProps): JSX.Element {
  const { kind, row, book, to, open, value, trouble, act, onPick } = props;
  const columns = columnsOf(kind, book);
  return (
    <>
      <tr class={props.picked ? "plan-line plan-picked" : "plan-line"} onFocusIn={() => onPick(row.id)}>
        {columns.map((column, at) => (
          <Cell
            key={column.name}
            column={column}
            row={row}
            book={book}
            first={props.first && at === 0}
            value={open === column.name ? value : undefined}
            act={act}
            onOpen={(typed) => act?.open(kind, row, column, typed)}
          />
        ))}
        <td class="plan-more">
          <Link to={to} label={words.moreAbout(row.body.name ?? "")}>
            →
          </Link>
        </td>
      </tr>
      {trouble && act ? (
        <tr>
          <td class="plan-trouble" colSpan={columns.length + 1}>
            <CellTrouble trouble={trouble} act={act} />
          </td>
        </tr>
      ) : null}
    </>
  );
});

interface CellProps {
  readonly column: FieldSpec;
  readonly row: Entry;
  readonly book: Book;
  readonly first: boolean;
  /** What is typed in it; undefined while it is closed. */
  readonly value: FormValue | undefined;
  readonly act: Acts | null;
  readonly onOpen: (value?: string) => void;
}

function Cell({ column, row, book, first, value, act, onOpen }: CellProps): JSX.Element {
  const { text, assumed } = told(column, row.body, book);
  const kind = `plan-cell${inWords(column) ? " plan-words" : ""}${assumed ? " plan-assumed" : ""}`;
  const Tag = column.name === "name" ? "th" : "td";
  const common = { tabIndex: first ? 0 : -1, ...(Tag === "th" ? { scope: "row" as const } : {}) };
  if (value !== undefined && act)
    return (
      <Tag {...common} class={inWords(column) ? "plan-open plan-words" : "plan-open"}>
        <Editor column={column} row={row} book={book} value={value} act={act} />
      </Tag>
    );
  const key = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const typed = event.key.length === 1 && event.key !== " " && optionsOf(column, book).length === 0;
    if (!typed && !["Enter", "F2", " "].includes(event.key)) return;
    event.preventDefault();
    onOpen(typed ? event.key : undefined);
  };
  return (
    <Tag {...common} class={kind} onClick={() => onOpen()} onKeyDown={key}>
      {text || words.dash}
    </Tag>
  );
}

interface EditorProps {
  readonly column: FieldSpec;
  readonly row: Entry;
  readonly book: Book;
  readonly value: FormValue;
  readonly act: Acts;
}

function Editor({ column, row, book, value, act }: EditorProps): JSX.Element {
  const options = optionsOf(column, book);
  const text = typeof value === "string" ? value : "";
  const key = (event: KeyboardEvent) => {
    const cell = (event.currentTarget as Element).closest("td, th")!;
    const step = event.key === "Enter" ? [1, 0] : event.key === "Tab" ? [0, event.shiftKey ? -1 : 1] : null;
    event.stopPropagation();
    if (event.isComposing || !(step || event.key === "Escape")) return;
    event.preventDefault();
    if (!step) act.cancel();
    else if (!act.commit()) return;
    focusOn(step ? (beside(cell, step[0]!, step[1]!) ?? cell) : cell);
  };
  const common = {
    "aria-label": words.cell(words.columns[column.name]!, row.body.name ?? ""),
    value: text,
    onKeyDown: key,
    onBlur: () => void act.commit(),
  };
  if (options.length > 0)
    return (
      <select
        {...common}
        ref={(element) => focusOn(element)}
        onChange={(event) => act.change(event.currentTarget.value)}
      >
        {options.map(([one, label]) => (
          <option key={one} value={one}>
            {label}
          </option>
        ))}
      </select>
    );
  const { type } = column;
  return (
    <input
      {...common}
      type="text"
      autocomplete="off"
      inputMode={type === "number" ? "decimal" : type === "count" ? "numeric" : "text"}
      ref={(element) => focusOn(element, text === opened(column, row.body))}
      onInput={(event) => act.change(event.currentTarget.value)}
    />
  );
}

function focusOn(element: Element | null, select = false): void {
  if (!(element instanceof HTMLElement) || element === document.activeElement) return;
  element.focus();
  if (select && element instanceof HTMLInputElement) element.select();
}

const STEPS: Readonly<Record<string, readonly [rows: number, columns: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

function walk(event: KeyboardEvent): void {
  const step = STEPS[event.key];
  const cell = (event.target as Element).closest("td, th");
  const next = step && cell ? beside(cell, ...step) : null;
  if (!next) return;
  event.preventDefault();
  focusOn(next.querySelector("a") ?? next);
}

/** The cell so many rows down and columns across, or null past the edge. */
function beside(cell: Element, rows: number, columns: number): Element | null {
  const line = cell.closest("tr")!;
  const lines = [...line.parentElement!.querySelectorAll(".plan-line")];
  const next = lines[lines.indexOf(line) + rows];
  return next?.children[[...line.children].indexOf(cell) + columns] ?? null;
}

/** One cell of the table is where Tab comes in: the one that had the focus last. */
function rove(event: FocusEvent): void {
  const cell = (event.target as Element).closest("td, th");
  if (!cell || cell.classList.contains("plan-more")) return;
  for (const one of (event.currentTarget as Element).querySelectorAll("[tabindex='0']"))
    one.setAttribute("tabindex", "-1");
  cell.setAttribute("tabindex", "0");
}
