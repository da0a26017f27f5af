/** When other phones were last heard: what was typed there since is in no figure here. */
import type { JSX } from "preact";
import { useUser } from "@/ui/context";
import { momentOf } from "@/ui/text/figures";
import { words } from "@/ui/text/fuel";
import { type BookView, useServices } from "./live";
import { Row } from "./row";
import { Section } from "./section";

/** Of fitters nothing is said: they write no fuel and no water. */
export function Heard({ view }: { readonly view: BookView }): JSX.Element | null {
  const { clock } = useServices();
  const { account } = useUser();
  const phones = view.heard.filter((one) => one.role !== "fitter");
  if (phones.length === 0) return null;
  return (
    <Section title={words.heard}>
      {phones.map(({ user, name, nth, at, unsent }) => {
        const label = user === account.id ? words.ownPhone(nth) : words.phone(name, nth);
        return <Row key={label} label={label} note={words.heardAt(momentOf(at, clock.zone()), unsent)} />;
      })}
    </Section>
  );
}
