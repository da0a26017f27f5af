/** Label left, figure right, a hairline under both; a link or a button when it can be touched. */
import type { JSX } from "preact";
import { Link } from "./link";

export interface RowProps {
  readonly label: string;
  readonly figure?: string;
  /** What stands in a figure's place and is none: a name, an answer. */
  readonly said?: string;
  readonly note?: string;
  readonly to?: string;
  readonly onTouch?: () => void;
}

export function Row({ label, figure, said, note, to, onTouch }: RowProps): JSX.Element {
  const inside = (
    <>
      <span class="row-label">{label}</span>
      {figure ? <span class="row-figure">{figure}</span> : null}
      {said ? <span class="row-said">{said}</span> : null}
      {note ? <span class="row-note">{note}</span> : null}
    </>
  );
  if (to)
    return (
      <Link to={to} class="row row-touch">
        {inside}
      </Link>
    );
  if (onTouch)
    return (
      <button type="button" class="row row-touch" onClick={onTouch}>
        {inside}
      </button>
    );
  return <div class="row">{inside}</div>;
}
