/** A GPX file looked at before anything of it is taken into the form: its legs, and the places along them. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { readGpx } from "@/services/gpx";
import { legsOf, type Taken } from "@/services/track";
import { Action } from "@/ui/parts/action";
import { FileField } from "@/ui/parts/pick";
import { Row } from "@/ui/parts/row";
import { Section } from "@/ui/parts/section";
import { km } from "@/ui/text/road";
import { ask } from "@/ui/text/route_form";

interface Props {
  /** Kilometres of the legs that are there already. */
  readonly after_km: number;
  readonly onTake: (legs: readonly object[], supplies: readonly object[]) => void;
}

export function TakeIn({ after_km, onTake }: Props): JSX.Element {
  const [found, setFound] = useState<Taken | "none" | null>(null);
  const choose = async (file: File) => {
    const gpx = readGpx(await file.text());
    const taken = gpx ? legsOf(gpx.tracks, gpx.places) : null;
    setFound(taken && taken.legs.length > 0 ? taken : "none");
  };
  const take = ({ legs, places }: Taken) => {
    onTake(
      legs.map((leg) => ({ distance_km: rounded(leg.km), surface: { sealed: 1 }, label: leg.name })),
      places.map(({ at_km, off_km: _, name, ...place }) => {
        return {
          ...place,
          name: name || ask.waypoint,
          at_km: rounded(after_km + at_km),
          fuel: true,
          water: true,
          certain: false,
        };
      }),
    );
    setFound(null);
  };
  return (
    <Section title={ask.gpx}>
      <FileField label={ask.file} accept=".gpx,application/gpx+xml" onChoose={(file) => void choose(file)} />
      {found === "none" ? <p class="field-error">{ask.noTrack}</p> : null}
      {found && found !== "none" ? (
        <>
          {found.legs.map((leg, n) => (
            <Row key={n} label={leg.name || ask.file} figure={km(leg.km)} />
          ))}
          {found.places.map((one) => (
            <Row
              key={`${one.name} ${one.at_km}`}
              label={one.name || ask.waypoint}
              figure={km(after_km + one.at_km)}
              note={ask.off(km(one.off_km))}
            />
          ))}
          <p class="hint">{ask.gpxHint}</p>
          <Action kind="plain" label={ask.takeIn} onTouch={() => take(found)} />
        </>
      ) : null}
    </Section>
  );
}

/** To 0.1 km: a track's points are no truer than that. */
function rounded(value: number): number {
  return Math.round(10 * value) / 10;
}
