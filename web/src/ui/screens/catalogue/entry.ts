/** An article as it stands in its form, and the item that comes of it. Pure. */
import type { Row } from "@/services/answers";
import { type Article, itemOf, placeXM, proposal } from "@/services/catalogue";
import { words } from "@/ui/text/catalogue";
import { type Choice, readTyped, type TypedNumber } from "@/units/typed";

export interface ArticleForm {
  readonly mass: TypedNumber;
  readonly known_by: string;
  readonly count: string;
  readonly place: string;
  readonly x: TypedNumber;
}

export interface ArticleErrors {
  readonly mass?: string;
  readonly mass_asks?: readonly Choice[];
  readonly count?: string;
  readonly x?: string;
  readonly x_asks?: readonly Choice[];
}

/** The form with what is usual in it; without a wheelbase the place is blank. */
export function formFor(
  article: Article,
  wheelbase_m: number | null,
  place: string = article.places[0]!,
): ArticleForm {
  const x = wheelbase_m === null ? "" : placeXM({ place, wheelbase_m }).toFixed(2);
  return {
    mass: { text: String(article.typical_kg), unit: "kg" },
    known_by: "estimate",
    count: String(article.count),
    place,
    x: { text: x, unit: "m" },
  };
}

export interface ReadArticle {
  readonly body: Row["body"] | null;
  readonly errors: ArticleErrors;
}

/**
 * The item: what was left as it stood is the catalogue's, with its u; what was typed over is kept as typed. A mass that
 * is known otherwise than by estimate has the u of how it is known, and the range says nothing of it any more.
 */
export function readArticle(article: Article, form: ArticleForm, wheelbase_m: number | null): ReadArticle {
  const usual = formFor(article, wheelbase_m, form.place);
  const mass = readTyped(form.mass, { dimension: "mass", low: 0, high: 10_000, name: words.mass });
  const x = readTyped(form.x, { dimension: "length", low: -3, high: 20, name: words.place });
  const count = Number(form.count.trim());
  const errors: ArticleErrors = {
    ...(mass.kind === "wrong" ? { mass: mass.message } : {}),
    ...(mass.kind === "ask" ? { mass_asks: mass.choices } : {}),
    ...(x.kind === "wrong" ? { x: x.message } : {}),
    ...(x.kind === "ask" ? { x_asks: x.choices } : {}),
    ...(Number.isInteger(count) && count >= 1 && count <= 1000
      ? {}
      : { count: words.wrongCount(form.count) }),
  };
  if (Object.keys(errors).length > 0) return { body: null, errors };
  const found = itemOf(proposal({ article: article.id, wheelbase_m, place: form.place, count }));
  const typed: Record<string, readonly [string, string]> = {};
  const body: Record<string, unknown> = { ...found };
  const put = (name: "mass_kg" | "x_m", read: typeof mass, left: boolean) => {
    if (left) return;
    delete body[name];
    if (read.kind !== "ok") return;
    body[name] = read.base;
    typed[name] = read.as_typed;
  };
  put("mass_kg", mass, same(form.mass, usual.mass));
  put("x_m", x, same(form.x, usual.x));
  if (form.known_by !== "estimate" || body.mass_kg === undefined) delete body.mass_u_kg;
  body.known_by = form.known_by;
  if (Object.keys(typed).length > 0) body.as_typed = typed;
  return { body, errors };
}

function same(one: TypedNumber, other: TypedNumber): boolean {
  return one.text === other.text && one.unit === other.unit;
}
