/** Signing in or up in two steps on one page: the name, then the password. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { SignIn } from "@/services/session";
import { useGiven } from "@/ui/context";
import { Action, Actions } from "@/ui/parts/action";
import { Form } from "@/ui/parts/form";
import { ChoiceField, TextField } from "@/ui/parts/forms";
import { Notice } from "@/ui/parts/notice";
import { Screen } from "@/ui/parts/screen";
import { words } from "@/ui/text/sign_in";

type Errors = Readonly<Record<string, string>>;

export default function SignInScreen(): JSX.Element {
  const { app, router } = useGiven();
  const before = app.user.value?.account.name ?? "";
  const [name, setName] = useState(before);
  const [step, setStep] = useState<"name" | "password">(before ? "password" : "name");
  const [fresh, setFresh] = useState(false);
  const [errors, setErrors] = useState<Errors>({});
  const enter = async (password: string) => {
    if (password === "") return setErrors({ password: words.needPassword });
    const result = await (fresh ? app.signUp(name.trim(), password) : app.signIn(name.trim(), password));
    if (result.kind === "ok") return router.go("/", { replace: true });
    setErrors(errorsOf(result));
    if (result.kind === "refused" && result.error.fields.name) setStep("name");
  };
  return (
    <Screen title={before ? words.again(before) : words.title} narrow>
      <Waiting />
      {before ? null : <p>{words.what}</p>}
      {errors.all ? <Notice tone="warn">{errors.all}</Notice> : null}
      {step === "name" ? (
        <NameStep
          name={name}
          fresh={fresh}
          error={errors.name}
          onName={setName}
          onFresh={setFresh}
          next={(found) => {
            setErrors(found);
            if (!found.name) setStep("password");
          }}
        />
      ) : (
        <PasswordStep
          name={name}
          fresh={fresh}
          error={errors.password}
          enter={enter}
          back={() => setStep("name")}
        />
      )}
    </Screen>
  );
}

function errorsOf(result: Exclude<SignIn, { kind: "ok" }>): Errors {
  if (result.kind === "unreachable") return { all: words.unreachable };
  const { message, fields } = result.error;
  const found = Object.fromEntries(Object.entries(fields).map(([name, list]) => [name, list.join(" ")]));
  return found.name || found.password ? found : { all: message };
}

/** Who is signed in here already, when what he saved waits for him. */
function Waiting(): JSX.Element | null {
  const user = useGiven().app.user.value;
  if (!user || user.status.waiting.value === 0) return null;
  return <Notice>{words.waits(user.account.name, user.status.waiting.value)}</Notice>;
}

interface NameProps {
  readonly name: string;
  readonly fresh: boolean;
  readonly error: string | undefined;
  readonly onName: (name: string) => void;
  readonly onFresh: (fresh: boolean) => void;
  readonly next: (errors: Errors) => void;
}

function NameStep({ name, fresh, error, onName, onFresh, next }: NameProps): JSX.Element {
  const go = () => next(name.trim() === "" ? { name: words.needName } : {});
  return (
    <Form onEnter={go}>
      <ChoiceField
        label={words.title}
        value={fresh ? "fresh" : "known"}
        options={[
          { value: "known", label: words.known },
          { value: "fresh", label: words.fresh },
        ]}
        onChange={(value) => onFresh(value === "fresh")}
      />
      <TextField
        label={words.name}
        value={name}
        onChange={onName}
        error={error ?? null}
        autocomplete="username"
        {...(fresh ? { hint: words.nameHint } : {})}
      />
      <Actions>
        <Action label={words.next} onTouch={go} />
      </Actions>
    </Form>
  );
}

interface PasswordProps {
  readonly name: string;
  readonly fresh: boolean;
  readonly error: string | undefined;
  readonly enter: (password: string) => unknown;
  readonly back: () => void;
}

function PasswordStep({ name, fresh, error, enter, back }: PasswordProps): JSX.Element {
  const [password, setPassword] = useState("");
  return (
    <Form onEnter={() => enter(password)}>
      {/* a password manager files the password under this name */}
      <input
        class="visually-hidden"
        type="text"
        value={name}
        autocomplete="username"
        readOnly
        tabIndex={-1}
        aria-hidden
      />
      <TextField
        label={words.password}
        value={password}
        onChange={setPassword}
        error={error ?? null}
        secret
        autofocus
        autocomplete={fresh ? "new-password" : "current-password"}
        {...(fresh ? { hint: words.passwordHint } : {})}
      />
      <Actions>
        <Action label={words.change} kind="plain" onTouch={back} />
        <Action label={fresh ? words.make : words.enter} onTouch={() => enter(password)} />
      </Actions>
    </Form>
  );
}
