/** The same list on a phone: a row opens in place, and its mass and place are typed there. */
import type { JSX } from "preact";
import type { Row as Entry } from "@/services/answers";
import { NumberField } from "@/ui/parts/forms";
import { Row } from "@/ui/parts/row";
import { words } from "@/ui/text/plan";
import { unitsOf } from "@/units/units";
import { inPlace } from "./cells";
import type { FieldSpec } from "./fields";
import { type FormValue, isTyped, shown } from "./form";
import { figureOf, labelOf, noteOf } from "./lines";
import type { Listing } from "./tables";
import { CellTrouble } from "./trouble";
import type { Cells } from "./typing";

export function List(props: Listing): JSX.Element {
  const { kind, rows, view, path, cells, picked, onPick, mayEdit } = props;
  return (
    <>
      {rows.map((row) => {
        const open = mayEdit && picked?.by === "list" && picked.id === row.id;
        const { body } = row;
        return (
          <div key={row.id}>
            <button
              type="button"
              class="row row-touch"
              aria-expanded={open}
              onClick={() => onPick(open ? null : row.id)}
            >
              <span class="row-label">{labelOf(kind, body)}</span>
              <span class="row-figure">{figureOf(kind, body)}</span>
              <span class="row-note">{noteOf(kind, body, view.book)}</span>
            </button>
            {open ? (
              <div class="plan-in-place">
                {inPlace(kind).map((column) => (
                  <InPlace key={column.name} {...{ kind, cells, row, column }} />
                ))}
                <Row label={words.more} to={`${path}/${row.id}`} />
              </div>
            ) : null}
          </div>
        );
      })}
    </>
  );
}

/** As it was typed; a share as per cent. */
function inUnit(column: FieldSpec, body: Entry["body"]): FormValue {
  if (column.type !== "number" || column.dimension !== "fraction") return shown(column, body);
  const share = body[column.name];
  return { text: share == null ? "" : String(Number((share * 100).toPrecision(12))), unit: "%" };
}

interface InPlaceProps {
  readonly kind: string;
  readonly cells: Cells;
  readonly row: Entry;
  readonly column: FieldSpec;
}

export function InPlace({ kind, row, column, cells }: InPlaceProps): JSX.Element | null {
  const { typing, trouble, act } = cells;
  if (column.type !== "number") return null;
  const mine = typing?.id === row.id && typing.name === column.name ? typing : null;
  const value: FormValue = mine ? mine.value : inUnit(column, row.body);
  if (!isTyped(value)) return null;
  const leave = (event: FocusEvent) => {
    const inside = (event.currentTarget as Element).contains(event.relatedTarget as Node | null);
    if (mine && !inside) act.commit();
  };
  const key = (event: KeyboardEvent) => {
    if (event.key !== "Enter" || event.isComposing) return;
    event.preventDefault();
    if (act.commit() && event.target instanceof HTMLElement) event.target.blur();
  };
  return (
    <div role="group" aria-label={row.body.name} onFocusOut={leave} onKeyDown={key}>
      <NumberField
        label={column.label}
        value={value}
        units={column.dimension === "fraction" ? ["%"] : unitsOf(column.dimension)}
        onChange={(next) => (mine ? act.change(next) : act.open(kind, row, column, next))}
      />
      {mine && trouble ? <CellTrouble trouble={trouble} act={act} /> : null}
    </div>
  );
}
