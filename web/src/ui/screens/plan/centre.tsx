/** Where the plan's centre of gravity is, how that compares, and what single wheels and axles carry by which model. */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import type { Book, State } from "@/services/answers";
import { centreOf, splitOf } from "@/services/plan";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/centre";
import { twoSided, withReach } from "@/ui/text/figures";
import { ratingName } from "@/ui/text/ratings";

interface Props {
  readonly book: Book;
  readonly state: State;
  readonly ordered: boolean;
}

export function CentreOfGravity({ book, state, ordered }: Props): JSX.Element | null {
  const found = useMemo(() => centreOf(book, state, ordered), [book, state, ordered]);
  if (!found?.centre) return null;
  const { centre, stability, heights, no_height } = found;
  const reach = (value: number, u: number) => `${withReach(value, twoSided(u), 2)}\u202fm`;
  return (
    <Section title={words.title}>
      <Row label={words.along} figure={reach(centre.x_m, centre.x_u_m)} />
      <Row label={words.across(centre.y_m)} figure={reach(Math.abs(centre.y_m), centre.y_u_m)} />
      {centre.z_m !== null ? (
        <Row label={words.height} figure={reach(centre.z_m, centre.z_u_m ?? 0)} />
      ) : (
        <p>{words.noHeight(names(book, no_height), no_height.length)}</p>
      )}
      {heights ? (
        <Row
          label={words.overTanks}
          figure={words.between(heights.least_m, heights.greatest_m)}
          note={words.partFull(heights.least_at)}
        />
      ) : null}
      {stability ? (
        <Row label={words.stability} figure={withReach(stability.factor, twoSided(stability.u), 2)} />
      ) : null}
      <p class="hint">{words.hint}</p>
    </Section>
  );
}

/** Single wheels where both tracks are known, single axles of a rear group; the model is named beside them. */
export function SingleLoads({ book, state, ordered }: Props): JSX.Element | null {
  const found = useMemo(() => splitOf(book, state, ordered), [book, state, ordered]);
  if (!found || found.wheels.length + found.singles.length === 0) return null;
  const row = ({ row: name, value_kg, u_kg, other_kg }: (typeof found.wheels)[number]) => (
    <Row
      key={name}
      label={ratingName(name, null)}
      figure={`${withReach(value_kg, twoSided(u_kg))}\u202fkg`}
      {...(Math.abs(other_kg - value_kg) >= WORTH_SAYING_KG ? { note: words.other(other_kg) } : {})}
    />
  );
  return (
    <Section title={words.single}>
      {found.wheels.map(row)}
      {found.wheels.length > 0 ? <p class="hint">{words.frame[found.frame]}</p> : null}
      {found.singles.map(row)}
      {found.singles.length > 0 ? <p class="hint">{words.second[found.second_axle]}</p> : null}
    </Section>
  );
}

const WORTH_SAYING_KG = 10;

type Blanks = NonNullable<ReturnType<typeof centreOf>>["no_height"];

/** At most three of those whose height is not known. */
function names(book: Book, blanks: Blanks): string[] {
  const rows = [...book.items, ...book.tanks, ...book.seats, ...(book.vehicle ? [book.vehicle] : [])];
  return blanks
    .slice(0, 3)
    .flatMap(({ record_id }) => rows.find(({ id }) => id === record_id)?.body.name ?? []);
}
