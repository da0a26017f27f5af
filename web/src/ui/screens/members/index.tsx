/** Who shares this vehicle, and with whom else to share it. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Sharing } from "@/services/members";
import { useUser } from "@/ui/context";
import { Action, Actions } from "@/ui/parts/action";
import { Confirm } from "@/ui/parts/confirm";
import { Form } from "@/ui/parts/form";
import { ChoiceField, TextField } from "@/ui/parts/forms";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { type BookView, useBook } from "@/ui/parts/watch";
import { words } from "@/ui/text/members";

type Role = BookView["role"];
type Member = BookView["members"][number];

export default function MembersScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Members view={view} /> : null;
}

function Members({ view }: { readonly view: BookView }): JSX.Element {
  const { members } = useUser();
  const me = useUser().account.id;
  const [asked, setAsked] = useState<Sharing | null>(null);
  useEffect(() => {
    void members.list(view.id).then(setAsked);
  }, [members, view.id]);
  const list = asked?.kind === "ok" ? asked.members : view.members;
  const owner = view.role === "owner";
  return (
    <Screen title={view.name} back={`/b/${view.id}`} aside={words.title} narrow>
      {asked?.kind === "unreachable" ? <Notice>{words.unreachable}</Notice> : null}
      {list.length === 0 ? <Notice>{words.notYet}</Notice> : null}
      {list.map((one) => (
        <Line key={one.user} member={one} me={me} book={view.id} owner={owner} onChanged={setAsked} />
      ))}
      {owner && list.length > 0 ? <Share book={view.id} onChanged={setAsked} /> : null}
    </Screen>
  );
}

interface LineProps {
  readonly member: Member;
  readonly me: string;
  readonly book: string;
  readonly owner: boolean;
  readonly onChanged: (sharing: Sharing) => void;
}

function Line({ member, me, book, owner, onChanged }: LineProps): JSX.Element {
  const { members } = useUser();
  const [asking, setAsking] = useState(false);
  const [error, setError] = useState<string | null>(null);
  const remove = async () => {
    const result = await members.remove(book, member.user);
    setAsking(false);
    if (result.kind === "ok") onChanged(result);
    else setError(result.kind === "refused" ? result.error.message : words.unreachable);
  };
  const label = member.user === me ? `${member.name} (${words.you})` : member.name;
  return (
    <div>
      <Row label={label} note={`${words.roles[member.role]}: ${words.what[member.role]}`} />
      {owner && member.user !== me && !asking ? (
        <Action label={words.remove(member.name)} kind="plain" onTouch={() => setAsking(true)} />
      ) : null}
      {asking ? (
        <Confirm
          question={words.sure(member.name)}
          yes={words.yes}
          no={words.no}
          onYes={remove}
          onNo={() => setAsking(false)}
        />
      ) : null}
      {error ? <Notice tone="warn">{error}</Notice> : null}
    </div>
  );
}

interface ShareProps {
  readonly book: string;
  readonly onChanged: (sharing: Sharing) => void;
}

function Share({ book, onChanged }: ShareProps): JSX.Element {
  const { members } = useUser();
  const [name, setName] = useState("");
  const [role, setRole] = useState<Role>("co_driver");
  const [error, setError] = useState<string | null>(null);
  const [shared, setShared] = useState<string | null>(null);
  const share = async () => {
    setShared(null);
    if (name.trim() === "") return setError(words.needName);
    const result = await members.add(book, name.trim(), role);
    if (result.kind !== "ok") return setError(reason(result));
    onChanged(result);
    setShared(words.shared(name.trim()));
    setName("");
    setError(null);
  };
  return (
    <Section title={words.add}>
      <Form onEnter={share}>
        <TextField label={words.name} value={name} onChange={setName} error={error} hint={words.nameHint} />
        <ChoiceField
          label={words.role}
          value={role}
          options={(["co_driver", "fitter", "owner"] as const).map((one) => ({
            value: one,
            label: words.roles[one],
          }))}
          onChange={(value) => setRole(value as Role)}
          hint={words.what[role]}
        />
        {shared ? <p role="status">{shared}</p> : null}
        <Actions>
          <Action label={words.share} onTouch={share} />
        </Actions>
      </Form>
    </Section>
  );
}

function reason(result: Exclude<Sharing, { kind: "ok" }>): string {
  if (result.kind === "unreachable") return words.unreachable;
  return Object.values(result.error.fields).flat().join(" ") || result.error.message;
}
