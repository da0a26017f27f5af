/** The frame: which screen is drawn, and what concerns the app as a whole. */
import type { JSX } from "preact";
import { useEffect, useErrorBoundary, useState } from "preact/hooks";
import { isHere } from "@/services/books";
import { type Given, GivenContext, useGiven } from "./context";
import { Action } from "./parts/action";
import { Link } from "./parts/link";
import { Notice } from "./parts/notice";
import { Screen } from "./parts/screen";
import { useWatched } from "./parts/watch";
import type { Shown } from "./router";
import { match } from "./routes";
import { words } from "./text/app";
import "./styles/base.css";
import "./styles/layout.css";
import "./styles/forms.css";
import "./styles/app.css";

export function App(given: Given): JSX.Element {
  return (
    <GivenContext.Provider value={given}>
      <Update />
      <Page />
    </GivenContext.Provider>
  );
}

function Page(): JSX.Element | null {
  const { app, router } = useGiven();
  const user = app.user.value;
  const found = router.shown.value;
  const open = found !== null && match(found.path)?.route.open === true;
  const barred = user === null && !open;
  useEffect(() => {
    if (barred) router.go("/sign-in", { replace: true });
  }, [barred]);
  if (user === undefined || found === null || barred) return null;
  if (found.Screen === null) return <Nowhere />;
  // another person's screens are other screens: nothing of the first stays in them
  return <Arrived key={`${user?.account.id} ${found.path}`} found={found} />;
}

function Arrived({ found }: { readonly found: Shown }): JSX.Element {
  const { report } = useGiven().app.environment;
  const [broken] = useErrorBoundary((error) => report(error));
  if (broken) return <Broken />;
  const { book } = found.params;
  const screen = <found.Screen {...found.params} />;
  return book === undefined ? screen : <OfBook book={book}>{screen}</OfBook>;
}

/** The screens of a vehicle that this device does not have, or no longer has, are one and the same. */
function OfBook({ book, children }: { readonly book: string; readonly children: JSX.Element }): JSX.Element {
  const there = useWatched((user) => user.watch((tables) => isHere(tables, book)), [book]);
  return there === false ? <Nowhere /> : children;
}

/** A mistake of ours: the rest of the app, and everything saved, is still there. */
function Broken(): JSX.Element {
  return (
    <Screen title={words.broken} back="/" narrow>
      <p>{words.brokenWhy}</p>
    </Screen>
  );
}

function Nowhere(): JSX.Element {
  return (
    <Screen title={words.nowhere} narrow>
      <p>{words.nowhereWhy}</p>
      <p>
        <Link to="/">{words.home}</Link>
      </p>
    </Screen>
  );
}

/** A new version is offered; it waits for as long as somebody likes. */
function Update(): JSX.Element | null {
  const { updates } = useGiven().app;
  const [later, setLater] = useState(false);
  if (updates.blocked.value) return <Notice tone="warn">{words.blocked}</Notice>;
  if (updates.stale.value) return <Notice tone="note">{words.stale}</Notice>;
  if (!updates.offered.value || later) return null;
  return (
    <div class="update" role="status">
      <p>{words.offered}</p>
      <Action label={words.take} onTouch={updates.accept} />
      <Action label={words.later} kind="plain" onTouch={() => setLater(true)} />
    </div>
  );
}
