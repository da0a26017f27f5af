/** One of the two plans: its beam, its loads against the ratings of its day, its centre of gravity. */
import type { JSX } from "preact";
import type { Shown, Version } from "@/services/compare";
import { Beam, type Support } from "@/ui/parts/drawing/beam";
import type { BodyFacts, TrailerFacts } from "@/ui/parts/drawing/frame";
import { arrowsOf, tanksOf } from "@/ui/parts/drawing/loads";
import { axlePlaces, ROW_OF, trailerFacts, trailerIn } from "@/ui/parts/drawing/towed";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { VerdictRow } from "@/ui/parts/verdict_row";
import { words } from "@/ui/text/compare";
import { figure, twoSided, withReach } from "@/ui/text/figures";
import type { Terms } from "@/ui/text/ratings";

interface Props {
  readonly shown: Shown;
  readonly version: Version;
  readonly title: string;
  readonly terms: Terms | null;
}

export function SideView({ shown, version, title, terms }: Props): JSX.Element {
  const { book, centre, judged, levels, loads, missing } = shown;
  const named = words.named(title, version.day ?? null);
  if (!loads)
    return (
      <Section title={named}>
        <Notice>{version.trailer_id ? words.noTrailerThen : words.none}</Notice>
      </Section>
    );
  const body = (book.vehicle?.body ?? {}) as BodyFacts;
  const towed = trailerIn(book, version.trailer_id ? [version.trailer_id] : []);
  const trailer = towed ? trailerFacts(book, towed) : null;
  return (
    <Section title={named}>
      <Beam
        body={body}
        title={words.drawing(title)}
        trailer={trailer}
        supports={supportsOf(body, trailer, shown)}
        arrows={arrowsOf(book, towed?.id ?? null)}
        tanks={tanksOf(book, { tanks: levels }, { trailer_id: towed?.id ?? null })}
        cg_x_m={centre?.x_m ?? null}
      />
      {judged.map((one) => (
        <VerdictRow key={one.verdict.rating} judged={one} terms={terms} quiet />
      ))}
      {centre ? <Row label={words.cg} figure={words.behind(centre.x_m)} /> : null}
      {missing.length > 0 ? <p class="hint">{words.notCounted(missing.length)}</p> : null}
    </Section>
  );
}

function supportsOf(body: BodyFacts, trailer: TrailerFacts | null, { loads }: Shown): Support[] {
  return axlePlaces(body, trailer).map((place) => {
    const k = loads?.rows.indexOf(ROW_OF[place.id]) ?? -1;
    const kg = loads?.mean_kg[k];
    if (kg === undefined) return { ...place, figure: "?", label: place.id };
    const u_kg = Math.sqrt(loads!.cov_kg2[k]![k]!);
    const told = u_kg > 0 ? withReach(kg, twoSided(u_kg)) : figure(kg);
    return { ...place, figure: told, label: place.id };
  });
}
