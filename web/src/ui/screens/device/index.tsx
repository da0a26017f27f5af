/** This device: what is on it, what is not yet sent, what was refused, and signing out. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { useGiven, useUser } from "@/ui/context";
import { Action } from "@/ui/parts/action";
import { Confirm } from "@/ui/parts/confirm";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/device";
import { momentOf } from "@/ui/text/figures";
import { Attention } from "./attention";
import { saveUnsent } from "./file";

export default function DeviceScreen(): JSX.Element {
  const { app, device } = useGiven();
  const user = useUser();
  const { status, sync, account } = user;
  const line = status.line.value;
  const minutes = Math.round(status.clock_off_ms.value / 60_000);
  const synced_at = status.synced_at.value;
  const at = synced_at === null ? words.never : momentOf(synced_at, app.environment.zone());
  return (
    <Screen title={words.title(device)} back="/" narrow>
      <Row label={words.who} said={account.name} />
      <Row label={words.waiting} figure={String(status.waiting.value)} />
      <Row label={words.synced} figure={at} />
      <Row label={words.keeping} note={words.keepingWords[app.persist.keeping.value]} />
      {minutes !== 0 ? <Notice tone="warn">{words.clock(minutes)}</Notice> : null}
      {line.kind === "sign_in" ? null : <Action label={words.syncNow} kind="plain" onTouch={sync.wake} />}
      <Attention />
      <Section title={words.signOut}>
        {status.waiting.value + status.attention.value > 0 ? (
          <Row label={words.export} onTouch={() => void user.unsent().then((list) => saveUnsent(list))} />
        ) : null}
        <SignOut />
      </Section>
      {app.install.possible.value ? (
        <Action label={words.install} kind="plain" onTouch={app.install.ask} />
      ) : null}
    </Screen>
  );
}

function SignOut(): JSX.Element {
  const { app, router } = useGiven();
  const { status } = useUser();
  const [asking, setAsking] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const unsent = status.waiting.value + status.attention.value;
  const leave = async () => {
    if (await app.signOut()) router.go("/sign-in", { replace: true });
    else setTrouble(words.unreachable);
  };
  if (!asking) return <Action label={words.signOut} kind="plain" onTouch={() => setAsking(true)} />;
  const question = unsent > 0 ? `${words.signOutWhy} ${words.signOutUnsent(unsent)}` : words.signOutWhy;
  return (
    <>
      {trouble ? <Notice tone="warn">{trouble}</Notice> : null}
      <Confirm
        question={question}
        yes={words.signOutYes}
        no={words.signOutNo}
        onYes={leave}
        onNo={() => setAsking(false)}
      />
    </>
  );
}
