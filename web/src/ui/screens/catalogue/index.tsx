/** The catalogue: generic articles by where they sit on the vehicle, and kits; a touch leads to what would be added. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { type Article, articles, type Kit, kitProposals, kits, totalOf } from "@/services/catalogue";
import { TextField } from "@/ui/parts/forms";
import { type BookView, useBook } from "@/ui/parts/live";
import { Row } from "@/ui/parts/row";
import { Screen } from "@/ui/parts/screen";
import { Section } from "@/ui/parts/section";
import { words } from "@/ui/text/catalogue";
import { figure, kg, twoSided, withReach } from "@/ui/text/figures";

export default function CatalogueScreen({ book }: { readonly book: string }): JSX.Element | null {
  const view = useBook(book);
  return view ? <Catalogue view={view} /> : null;
}

function Catalogue({ view }: { readonly view: BookView }): JSX.Element {
  const [search, setSearch] = useState("");
  const wanted = search.trim().toLowerCase().split(/\s+/);
  const fits = (...texts: readonly string[]) =>
    wanted.every((word) => texts.some((text) => text.toLowerCase().includes(word)));
  const there = new Set(view.book.items.map(({ body }) => body.name as string));
  const groups = words.groups.map(([title, codes]) => ({
    title,
    found: articles().filter((one) => codes.includes(one.places[0]!) && fits(one.name, title)),
  }));
  const found = kits().filter((one) => fits(one.name));
  const none = found.length === 0 && groups.every((one) => one.found.length === 0);
  return (
    <Screen title={view.name} back={`/b/${view.id}/plan`} aside={words.title}>
      <p class="hint">{words.what}</p>
      <TextField label={words.search} value={search} onChange={setSearch} />
      {none ? <p>{words.nothing}</p> : null}
      <div class="flow">
        {found.length > 0 ? (
          <Section title={words.kits}>
            {found.map((kit) => (
              <KitRow key={kit.id} kit={kit} view={view} />
            ))}
          </Section>
        ) : null}
        {groups.map(({ title, found }) =>
          found.length > 0 ? (
            <Section key={title} title={title}>
              {found.map((one) => (
                <ArticleRow key={one.id} article={one} view={view} there={there.has(one.name)} />
              ))}
            </Section>
          ) : null,
        )}
      </div>
      <p class="hint">{words.tanks}</p>
    </Screen>
  );
}

function KitRow({ kit, view }: { readonly kit: Kit; readonly view: BookView }): JSX.Element {
  const list = kitProposals({ kit: kit.id });
  const { mass_kg, u_kg } = totalOf(list);
  return (
    <Row
      label={kit.name}
      figure={`${withReach(mass_kg, twoSided(u_kg))}\u202fkg`}
      note={list.map((one) => (one.count > 1 ? `${one.name} × ${one.count}` : one.name)).join(" · ")}
      to={`/b/${view.id}/catalogue/${kit.id}`}
    />
  );
}

interface ArticleProps {
  readonly article: Article;
  readonly view: BookView;
  readonly there: boolean;
}

function ArticleRow({ article, view, there }: ArticleProps): JSX.Element {
  return (
    <Row
      label={article.name}
      figure={some(article.typical_kg)}
      note={there ? `${rangeOf(article)} · ${words.inPlan}` : rangeOf(article)}
      to={`/b/${view.id}/catalogue/${article.id}`}
    />
  );
}

/** Small masses with the decimal that the table has. */
function some(value: number): string {
  return Number.isInteger(value) ? kg(value) : `${figure(value, 1)}\u202fkg`;
}

/** 40 to 95 kg, from memory */
export function rangeOf({ low_kg, high_kg, source }: Article): string {
  return words.range(String(low_kg), some(high_kg), words.sources[source]!);
}
