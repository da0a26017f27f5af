/** What would be added of an article or a kit: shown, and for one article changeable, before it is. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { type Article, articles, itemOf, type Kit, kitProposals, kits, totalOf } from "@/services/catalogue";
import { Action, Actions } from "@/ui/parts/action";
import { ChoiceField, NumberField, TextField } from "@/ui/parts/forms";
import { type BookView, useBook, useDraft, useServices } from "@/ui/parts/live";
import { Notice } from "@/ui/parts/notice";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { words } from "@/ui/text/catalogue";
import { kg, metres, twoSided, withReach } from "@/ui/text/figures";
import { words as record } from "@/ui/text/record";
import { unitsOf } from "@/units/units";
import { editsOf } from "../plan/edits";
import { KNOWN_BY } from "../plan/vehicle_fields";
import { type ArticleErrors, type ArticleForm, formFor, readArticle } from "./entry";
import { rangeOf } from "./index";

interface Props {
  readonly book: string;
  /** The id of an article or of a kit. */
  readonly article: string;
}

export default function ArticleScreen({ book, article: id }: Props): JSX.Element | null {
  const view = useBook(book);
  const article = articles().find((one) => one.id === id);
  const kit = kits().find((one) => one.id === id);
  if (!view) return null;
  if (view.role === "co_driver" || !(article || kit))
    return (
      <Screen title={words.title} back={`/b/${book}/catalogue`}>
        <Notice>{article || kit ? words.coDriver : words.nothing}</Notice>
      </Screen>
    );
  return article ? <OneArticle view={view} article={article} /> : <WholeKit view={view} kit={kit!} />;
}

function OneArticle({ view, article }: { readonly view: BookView; readonly article: Article }) {
  const { records, go } = useServices();
  const wheelbase_m: number | null = view.book.vehicle?.body.wheelbase_m ?? null;
  const draft = useDraft<ArticleForm>(`catalogue:${view.id}:${article.id}`, formFor(article, wheelbase_m));
  const [errors, setErrors] = useState<ArticleErrors>({});
  if (!draft.ready) return null;
  const form = draft.value;
  const back = `/b/${view.id}/catalogue`;
  const change = (part: Partial<ArticleForm>) => {
    setErrors({});
    draft.change({ ...form, ...part });
  };
  const add = async () => {
    const read = readArticle(article, form, wheelbase_m);
    setErrors(read.errors);
    if (!read.body) return;
    await editsOf(records, view.id).add("item", read.body);
    await draft.drop();
    go(back, { replace: true });
  };
  return (
    <Screen title={article.name} back={back} narrow>
      <NumberField
        label={words.mass}
        hint={words.massHint(rangeOf(article))}
        value={form.mass}
        units={unitsOf("mass")}
        onChange={(mass) => change({ mass })}
        error={errors.mass ?? null}
        ask={errors.mass_asks ?? null}
      />
      <ChoiceField
        label={KNOWN_BY.label}
        value={form.known_by}
        options={KNOWN_BY.options.map(([value, label]) => ({ value, label }))}
        onChange={(known_by) => change({ known_by })}
      />
      <TextField
        label={words.count}
        value={form.count}
        onChange={(count) => change({ count })}
        error={errors.count ?? null}
      />
      <Where {...{ article, form, errors, wheelbase_m }} onChange={change} />
      {article.keep_aboard ? <Notice>{words.stays}</Notice> : null}
      {article.taken_off ? <Notice>{words.off}</Notice> : null}
      <Actions>
        <Action label={words.add} onTouch={add} />
      </Actions>
    </Screen>
  );
}

interface WhereProps {
  readonly article: Article;
  readonly form: ArticleForm;
  readonly errors: ArticleErrors;
  readonly wheelbase_m: number | null;
  readonly onChange: (part: Partial<ArticleForm>) => void;
}

function Where({ article, form, errors, wheelbase_m, onChange }: WhereProps): JSX.Element {
  return (
    <>
      {article.places.length > 1 ? (
        <ChoiceField
          label={words.where}
          value={form.place}
          options={article.places.map((value) => ({ value, label: words.places[value]! }))}
          onChange={(place) => onChange({ place, x: formFor(article, wheelbase_m, place).x })}
        />
      ) : (
        <Row label={words.where} said={words.places[form.place]!} />
      )}
      <NumberField
        label={words.place}
        hint={wheelbase_m === null ? words.noWheelbase : words.placeHint}
        value={form.x}
        units={unitsOf("length")}
        onChange={(x) => onChange({ x })}
        error={errors.x ?? null}
        ask={errors.x_asks ?? null}
      />
    </>
  );
}

function WholeKit({ view, kit }: { readonly view: BookView; readonly kit: Kit }): JSX.Element {
  const { records, go } = useServices();
  const wheelbase_m: number | null = view.book.vehicle?.body.wheelbase_m ?? null;
  const list = kitProposals({ kit: kit.id, wheelbase_m });
  const { mass_kg, u_kg } = totalOf(list);
  const back = `/b/${view.id}/catalogue`;
  const add = async () => {
    const wanted = list.map((one) => ({ kind: "item", row: null, body: itemOf(one) }));
    await editsOf(records, view.id).several(wanted, record.edited(kit.name, record.added));
    go(`/b/${view.id}/plan`, { replace: true });
  };
  return (
    <Screen title={kit.name} back={back} narrow>
      {list.map((one) => (
        <Row
          key={one.name}
          label={one.count > 1 ? `${one.name} × ${one.count}` : one.name}
          figure={kg((one.taken_off ? -1 : 1) * one.mass_kg * one.count)}
          note={[
            one.x_m === null ? "" : `${words.place} ${metres(one.x_m)}`,
            one.taken_off ? words.off : "",
            one.keep_aboard ? words.stays : "",
          ]
            .filter(Boolean)
            .join(" · ")}
        />
      ))}
      <Row label={words.total} figure={`${withReach(mass_kg, twoSided(u_kg))}\u202fkg`} />
      {wheelbase_m === null ? <Notice>{words.noWheelbase}</Notice> : null}
      <p class="hint">{words.what}</p>
      <Actions>
        <Action label={words.addAll(list.length)} onTouch={add} />
      </Actions>
    </Screen>
  );
}
