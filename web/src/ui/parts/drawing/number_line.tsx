/**
 * A verdict as a measurement on a line: the rating a fixed upright, the value a notch with its whisker.
 * Wholly left is under, wholly right is over, a whisker that crosses cannot tell. It reads without colour.
 */
import type { JSX } from "preact";
import "./drawing.css";

export interface NumberLineProps {
  readonly value_kg: number;
  /** Half length of the whisker: z u of the verdict. */
  readonly reach_kg: number;
  readonly limit_kg: number | null;
  readonly limit_text: string;
  readonly word: "under" | "over" | "cannot_tell" | "not_known";
  readonly title: string;
  /** What it was before a change: a dim notch and whisker. */
  readonly before?: { readonly value_kg: number; readonly reach_kg: number } | null;
}

const WIDTH = 340;
const MIDDLE = 24;

export function NumberLine(props: NumberLineProps): JSX.Element {
  const { value_kg, reach_kg, limit_kg, word, before = null } = props;
  const span = spanOf(props);
  const x = (kg: number) => 8 + ((kg - span.from) / (span.to - span.from)) * (WIDTH - 16);
  const left = x(value_kg - reach_kg);
  const right = Math.max(x(value_kg + reach_kg), left + 2);
  const mark = limit_kg === null ? null : x(limit_kg);
  return (
    <svg class={`line line-${word}`} viewBox={`0 0 ${WIDTH} 40`} role="img" aria-label={props.title}>
      <line class="line-axis" x1={4} x2={WIDTH - 4} y1={MIDDLE} y2={MIDDLE} />
      {before ? (
        <path
          class="line-before"
          d={`M${x(before.value_kg - before.reach_kg)} ${MIDDLE}H${x(before.value_kg + before.reach_kg)}M${x(before.value_kg)} ${MIDDLE - 6}v12`}
        />
      ) : null}
      <line class="line-whisker" x1={left} x2={right} y1={MIDDLE} y2={MIDDLE} />
      <line class="line-notch" x1={x(value_kg)} x2={x(value_kg)} y1={MIDDLE - 8} y2={MIDDLE + 8} />
      {mark === null ? null : (
        <g>
          <line class="line-mark" x1={mark} x2={mark} y1={MIDDLE - 14} y2={MIDDLE + 14} />
          <text
            class="line-limit"
            x={mark + (mark > WIDTH - 60 ? -5 : 5)}
            y={MIDDLE - 6}
            text-anchor={mark > WIDTH - 60 ? "end" : "start"}
          >
            {props.limit_text}
          </text>
        </g>
      )}
    </svg>
  );
}

/** Both the mark and the whole whisker are on the line, with the mark a little right of the middle. */
function spanOf({ value_kg, reach_kg, limit_kg, before }: NumberLineProps): { from: number; to: number } {
  const mark = limit_kg ?? value_kg;
  const far = before ? Math.abs(mark - before.value_kg) + before.reach_kg : 0;
  const half = Math.max(60, reach_kg * 2.2, 1.15 * Math.max(far, Math.abs(mark - value_kg) + reach_kg));
  return { from: mark - half * 1.25, to: mark + half };
}
