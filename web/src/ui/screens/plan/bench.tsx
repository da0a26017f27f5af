/** The plan's drawing, where things are moved by hand, and what every load and rating says meanwhile. */
import type { ComponentChildren, JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import type { State } from "@/services/answers";
import { type Planned, plannedWith } from "@/services/plan";
import { type Arrow, Beam, type Support, type TankMark } from "@/ui/parts/drawing/beam";
import type { TrailerFacts } from "@/ui/parts/drawing/frame";
import { type Drag, Handle, type Held } from "@/ui/parts/drawing/handle";
import { arrowsOf, seatsOf, tanksOf } from "@/ui/parts/drawing/loads";
import { axlePlaces, ROW_OF, trailerFacts } from "@/ui/parts/drawing/towed";
import type { BookView } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { figure, twoSided, withReach } from "@/ui/text/figures";
import { words } from "@/ui/text/plan";
import type { Edits } from "./edits";
import { type Mover, useMoving } from "./moving";
import { Panel, Spread } from "./panel";
import { Ratings } from "./ratings";

/** What is picked, and whether on the drawing or in a list. */
export interface Picked {
  readonly id: string;
  readonly by: "drawing" | "list";
}

interface Props {
  readonly view: BookView;
  readonly edits: Edits;
  readonly found: Planned | null;
  readonly state: State;
  /** The other build: with what is on order, or without. */
  readonly beside: Planned | null;
  readonly ordered: boolean;
  readonly day: string;
  readonly on: string | null;
  readonly picked: Picked | null;
  readonly onPick: (picked: Picked | null) => void;
  readonly children: ComponentChildren;
  readonly tables: ComponentChildren;
}

export function Bench(props: Props): JSX.Element {
  const { view, edits, found, state, beside, ordered, day, on, picked, onPick, children, tables } = props;
  const { book } = view;
  const mover = useMoving(view, edits);
  const { spread, pick, take } = useTaking(mover, onPick);
  const { moving } = mover;
  const trailer = useMemo(() => trailerOn(view, on), [book, on]);
  const arrows = useMemo(
    () => [...arrowsOf(book, on, ordered), ...(found ? seatsOf(book, found) : [])],
    [book, found, on, ordered],
  );
  const tanks = useMemo(() => tanksOf(book, state, { trailer_id: on, found }), [book, state, found, on]);
  const live =
    found && moving && within(found, moving.id) ? plannedWith(book, found, moving.id, moving.x_m) : found;
  const standing = picked && [...arrows, ...tanks].find((one) => one.id === picked.id);
  const held = standing ? whileMoved(standing, moving) : null;
  const drag: Drag = {
    held,
    onTake: take,
    onMove: (x_m) => held && mover.move(held.id, x_m),
    onDrop: mover.drop,
  };
  const drawing = (
    <Beam
      body={book.vehicle?.body ?? NO_BODY}
      title={words.drawing}
      trailer={trailer}
      supports={supports(view, trailer, live)}
      arrows={arrows}
      tanks={tanks}
      cg_x_m={live?.cg_x_m ?? null}
      {...(view.role === "co_driver"
        ? {}
        : { hold: { id: held?.id ?? null, draw: (paper) => <Handle drag={drag} paper={paper} /> } })}
    />
  );
  return (
    <div class="plan-bench">
      {trailer ? <div class="plan-long">{drawing}</div> : null}
      <div class="plan-seen">
        {trailer ? null : drawing}
        <Dashed tanks={tanks} />
        {mover.trouble ? <Notice tone="warn">{mover.trouble}</Notice> : null}
        {spread.length > 0 ? <Spread members={spread} onPick={pick} /> : null}
        {picked ? <Panel view={view} edits={edits} picked={picked} x_m={held?.x_m ?? null} /> : null}
        {children}
        {live ? <Ratings {...{ view, day, on, ordered, beside }} found={live} /> : null}
      </div>
      <div>{tables}</div>
    </div>
  );
}

/** What a finger takes hold of: one thing at once, of several the one that is chosen. */
function useTaking(mover: Mover, onPick: Props["onPick"]) {
  const [spread, setSpread] = useState<readonly Arrow[]>([]);
  const pick = (id: string) => {
    setSpread([]);
    onPick({ id, by: "drawing" });
  };
  const take: Drag["onTake"] = (members) => {
    const [one] = members;
    if (members.length > 1 || !one) {
      setSpread(members);
      return onPick(null);
    }
    pick(one.id);
    mover.take(one.id);
  };
  return { spread, pick, take };
}

/** Which tanks are drawn at a size that nobody typed. */
function Dashed({ tanks }: { readonly tanks: readonly TankMark[] }): JSX.Element | null {
  const assumed = tanks.flatMap(({ label, size }) => (size.assumed ? label : []));
  return assumed.length > 0 ? <p class="hint">{words.dashed(assumed.join(", "))}</p> : null;
}

/** The arrow or tank as it stands while it is moved. */
function whileMoved(arrow: Arrow | TankMark, moving: ReturnType<typeof useMoving>["moving"]): Held {
  const place = moving?.id === arrow.id ? { x_m: moving.x_m } : {};
  return { ...arrow, ...place, touched: moving?.touched ?? false };
}

const NO_BODY = {};

function trailerOn({ book }: BookView, on: string | null): TrailerFacts | null {
  const row = book.trailers.find((one) => one.id === on);
  return row ? trailerFacts(book, row) : null;
}

/** Whether a record has a part in the plan of this state. */
function within({ plan }: Planned, id: string): boolean {
  return [...plan.lasting, ...plan.passing].some((part) => part.id === id || part.id.startsWith(`${id}:`));
}

function supports({ book }: BookView, trailer: TrailerFacts | null, found: Planned | null): Support[] {
  return axlePlaces(book.vehicle?.body ?? {}, trailer).map((place) => {
    const k = found ? found.loads.rows.indexOf(ROW_OF[place.id]) : -1;
    return { ...place, figure: k < 0 ? "?" : told(found!, k), label: place.id };
  });
}

function told({ loads }: Planned, k: number): string {
  const u = Math.sqrt(loads.cov_kg2[k]![k]!);
  return u > 0 ? withReach(loads.mean_kg[k]!, twoSided(u)) : figure(loads.mean_kg[k]!);
}
