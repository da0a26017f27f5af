/** What a correction keeps of the entry that it corrects: what its form does not ask, and what was not answered anew. Pure. */
import type { Row } from "@/services/answers";
import { withKept } from "@/ui/screens/entry/spec";
import { type FillForm, formOfFill } from "@/ui/screens/fuel/entry";
import { formOfWater, type WaterForm } from "@/ui/screens/water/entry";

type Body = Row["body"];

const UNASKED: Readonly<Record<string, readonly string[]>> = {
  fill: ["place", "note"],
  water: ["place", "note"],
  dip: ["surface", "towing", "note"],
};

/** Of the whole entry. */
export function unasked({ kind, body }: Row): Body {
  return withKept({}, body, UNASKED[kind] ?? []);
}

/** The body that the form of a fill gives, `asked` of these tanks, with what it leaves of the fill that it corrects. */
export function fillKept(row: Row, form: FillForm, body: Body, asked: readonly string[]): Body {
  const [was, before] = [row.body, formOfFill(row)];
  const same = (name: keyof FillForm) => JSON.stringify(form[name]) === JSON.stringify(before[name]);
  const known = (line: Body): Body => {
    const old: Body | undefined = was.lines.find((one: Body) => one.tank_id === line.tank_id);
    // who says anew whether a meter showed the litres says how well they are known
    if (!old || !same("about")) return line;
    const { measured: _, ...rest } = line;
    return withKept(rest, old, ["measured", "litres_u_l"]);
  };
  const others = was.lines.filter((line: Body) => !asked.includes(line.tank_id));
  return {
    ...body,
    lines: [...body.lines.map(known), ...others],
    surface: same("surface") && same("shares") ? (was.surface ?? null) : body.surface,
    towing: same("towing") ? (was.towing ?? null) : body.towing,
  };
}

/** The body that the form of a water entry gives, with how well the litres were known, if it is still about those. */
export function waterKept(row: Row, form: WaterForm, body: Body): Body {
  const [was, before] = [row.body, formOfWater(row)];
  if (body.everything || body.action !== was.action || body.tank_id !== was.tank_id) return body;
  const same = JSON.stringify(form.litres) === JSON.stringify(before.litres);
  const all = same && body.action === "draw" ? ["everything"] : [];
  return withKept(body, was, ["measured", "litres_u_l", ...all]);
}
