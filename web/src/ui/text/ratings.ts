/** Words of ratings and verdicts; country terms are a display choice (trade's own words per country). */
import { kg } from "./figures";

export type Terms = "au" | "eu" | "uk" | "us" | "za" | "nz";

const PLAIN: Readonly<Record<string, string>> = {
  gross: "Gross",
  front: "Front axle",
  rear: "Rear axle",
  combination: "Combination",
  trailer: "Trailer",
  trailer_axles: "Trailer axles",
  coupling: "Coupling",
  roof: "Roof",
  rear_1: "First rear axle",
  rear_2: "Second rear axle",
  front_left: "Front left wheel",
  front_right: "Front right wheel",
  rear_left: "Rear left wheel",
  rear_right: "Rear right wheel",
};

const COUNTRY: Readonly<Record<Terms, Readonly<Record<string, string>>>> = {
  au: { gross: "GVM", combination: "GCM", trailer: "ATM", trailer_axles: "GTM" },
  nz: { gross: "GVM", combination: "GCM" },
  za: { gross: "GVM", combination: "GCM" },
  eu: { gross: "Max laden mass" },
  uk: { gross: "MAM", combination: "Train weight" },
  us: { gross: "GVWR", front: "GAWR front", rear: "GAWR rear", combination: "GCWR" },
};

/** The rating's name: our word, and the country's term beside it where there is one. */
export function ratingName(rating: string, terms: Terms | null): string {
  const plain = PLAIN[rating] ?? rating;
  const term = terms ? COUNTRY[terms][rating] : undefined;
  return term ? `${plain} (${term})` : plain;
}

interface Told {
  readonly word: string;
  readonly margin_kg: number | null;
  readonly value_kg: number;
}

/** "under by 46 kg", "over by 72 kg", "cannot tell", "rating not known". */
export function verdictWords({ word, margin_kg }: Told): string {
  if (word === "under" && margin_kg !== null) return `under by ${kg(margin_kg)}`;
  if (word === "over" && margin_kg !== null) return `over by ${kg(-margin_kg)}`;
  return word === "not_known" ? "rating not known" : "cannot tell";
}

export const words = {
  of: (value: string, limit: string) => `${value} of ${limit}`,
  noLimit: (value: string) => `${value}, no rating entered`,
  fromPlan: "from the plan",
  notWeighed: "not weighed",
  disagree: "the readings disagree",
};
