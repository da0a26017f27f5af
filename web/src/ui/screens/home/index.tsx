/** All vehicles of this user, and the way to a new one. */
import type { JSX } from "preact";
import { useGiven } from "@/ui/context";
import { Action, Actions } from "@/ui/parts/action";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { useBooks, type VehicleLine } from "@/ui/parts/watch";
import { home as words } from "@/ui/text/home";

export default function HomeScreen(): JSX.Element | null {
  const { device } = useGiven();
  const { go } = useGiven().router;
  const books = useBooks();
  if (!books) return null;
  return (
    <Screen title={words.title} narrow>
      {books.some((one) => one.role === "fitter") ? <Row label={words.desk} to="/desk" /> : null}
      {books.length === 0 ? <Empty /> : books.map((one) => <Vehicle key={one.book} line={one} />)}
      <Row label={words.device(device)} to="/device" />
      <Actions>
        <Action label={words.fresh} onTouch={() => go("/new")} />
      </Actions>
    </Screen>
  );
}

function Vehicle({ line }: { readonly line: VehicleLine }): JSX.Element {
  const note = [words.role[line.role], line.pending ? words.pending : ""].filter(Boolean).join(" · ");
  return <Row label={line.name} note={note} to={`/b/${line.book}`} />;
}

function Empty(): JSX.Element {
  return (
    <>
      <p>
        <strong>{words.empty}</strong>
      </p>
      <p>{words.emptyWhat}</p>
      <p class="hint">{words.shared}</p>
    </>
  );
}
