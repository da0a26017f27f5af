/**
 * GPX 1.1 (topografix.com/GPX/1/1): tracks, routes and waypoints read. The content policy lets no text become a page, so
 * the few tags are read here.
 */
import type { Spot } from "../domain/geo";
import type { Place, Track } from "./track";

export interface Gpx {
  readonly tracks: readonly Track[];
  readonly places: readonly Place[];
}

const PIECE =
  /<!--.*?-->|<\?.*?\?>|<![A-Z][^>]*>|<!\[CDATA\[(.*?)\]\]>|<(\/?)([\w:.-]+)((?:\s+[\w:.-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>|([^<]+)|</gs;
const LONGEST_NAME = 80;

/** A tag that opens or closes, or text between tags. */
interface Piece {
  readonly text?: string;
  readonly tag?: string;
  readonly closes?: boolean;
  readonly alone?: boolean;
  readonly attributes?: string;
}

/** The pieces of a text in XML; null where a sign opens no tag. */
function piecesOf(text: string): Piece[] | null {
  const pieces: Piece[] = [];
  for (const [whole, cdata, slash, tag, attributes, alone, words] of text.matchAll(PIECE)) {
    if (whole === "<") return null;
    if (cdata !== undefined) pieces.push({ text: cdata });
    else if (words !== undefined) pieces.push({ text: decoded(words) });
    else if (tag !== undefined)
      pieces.push({
        ...{ tag: tag.replace(/^.*:/, ""), closes: slash !== "", alone: alone !== "" },
        attributes: attributes ?? "",
      });
  }
  return pieces;
}

interface Drawn {
  name: string;
  readonly spots: Spot[];
}

/** What is in a file; null where it is no GPX. */
export function readGpx(text: string): Gpx | null {
  const [tracks, places]: [Drawn[], Drawn[]] = [[], []];
  const open: string[] = [];
  let last: Drawn | undefined;
  for (const { text: said, tag = "", closes, alone, attributes = "" } of piecesOf(text) ?? [{ tag: "" }]) {
    if (said !== undefined) {
      if (last && open.at(-1) === "name" && NAMED.has(open.at(-2) ?? "")) last.name += said;
      continue;
    }
    if (closes ? open.pop() !== tag : open.length === 0 && tag !== "gpx") return null;
    if (closes) continue;
    if (NAMED.has(tag)) {
      last = { name: "", spots: [] };
      (tag === "wpt" ? places : tracks).push(last);
    }
    const spot = POINTS.has(tag) ? spotOf(attributes) : null;
    if (spot) last?.spots.push(spot);
    if (!alone) open.push(tag);
  }
  if (open.length > 0 || tracks.length + places.length === 0) return null;
  return {
    tracks: tracks.filter(({ spots }) => spots.length > 1).map((one) => ({ ...one, name: tidy(one.name) })),
    places: places.flatMap(({ name, spots }) => spots.map((spot) => ({ ...spot, name: tidy(name) }))),
  };
}

const NAMED = new Set(["trk", "rte", "wpt"]);
const POINTS = new Set(["trkpt", "rtept", "wpt"]);

function spotOf(attributes: string): Spot | null {
  const [latitude_deg, longitude_deg] = ["lat", "lon"].map((name) => {
    const found = new RegExp(`\\s${name}\\s*=\\s*["']\\s*([-+]?[0-9.]+)\\s*["']`).exec(attributes);
    return found ? Number(found[1]) : Number.NaN;
  });
  const fits = Math.abs(latitude_deg!) <= 90 && Math.abs(longitude_deg!) <= 180;
  return fits ? { latitude_deg: latitude_deg!, longitude_deg: longitude_deg! } : null;
}

const ENTITIES: Readonly<Record<string, string>> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

function decoded(text: string): string {
  return text.replace(/&(?:#(x[0-9a-f]+|[0-9]+)|(\w+));/gi, (all, code?: string, name?: string) => {
    if (!code) return ENTITIES[name ?? ""] ?? all;
    const point = code.startsWith("x") ? Number.parseInt(code.slice(1), 16) : Number(code);
    return point > 31 && point < 0xd800 ? String.fromCodePoint(point) : " ";
  });
}

function tidy(name: string): string {
  return name
    .replace(/[\s\p{Cc}]+/gu, " ")
    .trim()
    .slice(0, LONGEST_NAME);
}
