/** The moves as short sentences, each with what it does and the way to refuse it; and those that were refused. */
import type { JSX } from "preact";
import type { Book, Row as Entry } from "@/services/answers";
import type { LeastChange, Move } from "@/services/change";
import type { Lane } from "@/ui/parts/drawing/lanes";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/change";
import { ratingName, type Terms } from "@/ui/text/ratings";
import "./change.css";

interface Props {
  readonly book: Book;
  readonly change: LeastChange;
  readonly terms: Terms | null;
  /** Tanks are full in that state: less is filled, nothing is let out. */
  readonly filled: boolean;
  readonly onRefuse: (subject_id: string) => void;
}

export function MoveList({ book, change, terms, filled, onRefuse }: Props): JSX.Element | null {
  const { moves } = change;
  if (moves.length === 0) return null;
  return (
    <Section title={words.list}>
      <ol class="moves">
        {moves.map((move, n) => {
          const place = placeOf(book, move);
          const does = words.effects(effectsOf(change, move, terms));
          return (
            <li key={move.subject_id} class="move">
              <span class="move-number">{n + 1}</span>
              <p>
                <strong>{sentence(book, move, filled)}</strong>
                {place ? <span>{place}</span> : null}
                <span class="move-does">{does}</span>
              </p>
              <button
                type="button"
                class="move-stays"
                aria-label={words.staysOf(nameOf(book, move.subject_id))}
                onClick={() => onRefuse(move.subject_id)}
              >
                {words.stays}
              </button>
            </li>
          );
        })}
      </ol>
      {moves.some((one) => (one.choice.copies ?? 0) > 1) ? <p class="hint">{words.each}</p> : null}
    </Section>
  );
}

interface StayingProps {
  readonly book: Book;
  readonly ids: readonly string[];
  readonly onTakeBack: (subject_id: string) => void;
}

export function Staying({ book, ids, onTakeBack }: StayingProps): JSX.Element | null {
  if (ids.length === 0) return null;
  return (
    <Section title={words.staying}>
      {ids.map((id) => (
        <Row key={id} label={nameOf(book, id)} note={words.mayAgain} onTouch={() => onTakeBack(id)} />
      ))}
    </Section>
  );
}

/** Where each move begins and ends, for the drawing. */
export function lanesOf(book: Book, moves: readonly Move[]): Lane[] {
  return moves.flatMap((move, n): Lane[] => {
    const from = find(book, move.subject_id)?.body;
    if (from?.x_m == null) return [];
    const { part, to_tank_id } = move.choice;
    const tank = to_tank_id ? find(book, to_tank_id)?.body : null;
    const to = part
      ? { x_m: part.x_m, trailer: (part.on ?? "vehicle") !== "vehicle" }
      : tank
        ? { x_m: tank.x_m as number, trailer: Boolean(tank.trailer_id) }
        : null;
    const start = { x_m: from.x_m as number, trailer: Boolean(from.trailer_id) };
    return [{ id: move.subject_id, label: String(n + 1), from: start, to }];
  });
}

export function nameOf(book: Book, id: string): string {
  return find(book, id)?.body.name ?? "";
}

function find(book: Book, id: string): Entry | undefined {
  return [...book.items, ...book.tanks].find((row) => row.id === id);
}

function sentence(book: Book, { subject_id, choice }: Move, filled: boolean): string {
  const name = nameOf(book, subject_id);
  const some = (told: string) =>
    words.some(told, choice.copies ?? 1, find(book, subject_id)?.body.count ?? 1);
  const litres_l = choice.litres_l ?? 0;
  if (choice.kind === "slot") return some(words.move(name));
  if (choice.kind === "off") return some(words.leave(name));
  if (choice.kind === "pour") return words.pour(name, litres_l, nameOf(book, choice.to_tank_id ?? ""));
  return filled ? words.fillLess(name, litres_l) : words.letOut(name, litres_l);
}

/** The place of a move as its record names it. */
function placeOf(book: Book, { subject_id, choice }: Move): string | null {
  return choice.slot == null ? null : slotWords(book, subject_id, choice.slot);
}

export function slotWords(book: Book, subject_id: string, slot: number): string {
  const {
    label = "",
    x_m,
    roof = false,
    trailer_id,
  } = find(book, subject_id)?.body.may_move_to?.[slot] ?? {};
  const trailer = book.trailers.find((one) => one.id === trailer_id)?.body.name ?? null;
  return words.place(label, x_m, roof, trailer);
}

const MOST_SHOWN = 3;
const SAME_KG = 0.5;

/** What it does to the ratings that were not under, or to all where none was. */
function effectsOf({ before }: LeastChange, { effects }: Move, terms: Terms | null) {
  const felt = effects.filter((one) => Math.abs(one.kg) >= SAME_KG);
  const bad = before.filter((one) => one.word !== "under").map((one) => one.rating);
  const wanted = felt.filter((one) => bad.includes(one.rating));
  return (wanted.length > 0 ? wanted : felt)
    .slice(0, MOST_SHOWN)
    .map((one) => ({ name: ratingName(one.rating, terms).replace(/ \(.*/, ""), kg: one.kg }));
}
