/** Plates and ratings: what is in force and of which plate, what each plate changed, and what a planned one would. */
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { type PlateLine, plateLines, type Rating, ratingsOf } from "@/services/plates";
import { Cautions } from "@/ui/parts/cautions";
import { ChoiceField } from "@/ui/parts/forms";
import { type BookView, useBook, useServices } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { kg } from "@/ui/text/figures";
import { words } from "@/ui/text/plates";
import { ratingName } from "@/ui/text/ratings";
import { nameOf, PlateEntry } from "./plate";
import "./plates.css";

export default function PlatesScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Plates view={view} /> : null;
}

function Plates({ view }: { readonly view: BookView }): JSX.Element {
  const { clock } = useServices();
  const { book } = view;
  const day = clock.now().slice(0, 10);
  const [trailer, setTrailer] = useState("");
  const [planned, setPlanned] = useState<readonly string[]>([]);
  const lines = useMemo(() => plateLines(book, day), [book, day]);
  const [today, shown] = useMemo(() => {
    const asked = { book, day, trailer_id: trailer || null };
    return [ratingsOf(asked), ratingsOf({ ...asked, planned })];
  }, [book, day, trailer, planned]);
  const choose = ({ id, body }: PlateLine["plate"], counted: boolean) => {
    setPlanned((ids) => [...ids.filter((one) => one !== id), ...(counted ? [id] : [])]);
    // a trailer's plate counts with its trailer alone
    if (counted && body.trailer_id) setTrailer(body.trailer_id);
  };
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title}>
      {book.trailers.length > 0 ? (
        <ChoiceField
          label={words.withTrailer}
          value={trailer}
          options={[
            { value: "", label: words.noTrailer },
            ...book.trailers.map((one) => ({ value: one.id, label: one.body.name as string })),
          ]}
          onChange={setTrailer}
        />
      ) : null}
      <div class="columns">
        <div class="in-force">
          <Section title={planned.length > 0 ? words.ifPlanned : words.inForce}>
            {shown.map((one) => (
              <RatingRow key={one.rating} view={view} rating={one} />
            ))}
          </Section>
        </div>
        <Section title={words.plates}>
          {lines.length === 0 ? <p class="hint">{words.none}</p> : null}
          {lines.map((line) => (
            <PlateEntry
              key={line.plate.id}
              view={view}
              line={line}
              counted={planned.includes(line.plate.id)}
              onCount={(counted) => choose(line.plate, counted)}
              ratings={shown}
              today={today}
            />
          ))}
          {view.role === "co_driver" ? null : <Row label={words.add} to={`/b/${view.id}/plan/plate/new`} />}
        </Section>
      </div>
      <Cautions />
    </Screen>
  );
}

/** One rating: the value in force, the plate that it is of, and the others that state it. */
function RatingRow({ view, rating }: { readonly view: BookView; readonly rating: Rating }): JSX.Element {
  const name = ratingName(rating.rating, view.terms);
  if (rating.limit_kg === null || rating.plate_id === null)
    return <Row label={name} said={words.notKnown} note={words.unstated} />;
  const others = rating.also.slice(1).map(([id, value]) => words.stated(nameOf(view.book, id), value));
  const note = [nameOf(view.book, rating.plate_id), ...(others.length > 0 ? [words.alsoStated(others)] : [])];
  return <Row label={name} figure={kg(rating.limit_kg)} note={`${note.join(". ")}.`} />;
}
