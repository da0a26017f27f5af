/** What the screens write is drawn in the app's own faces: no character of theirs was cut away. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { dayOf, figure, signedKg, withReach } from "@/ui/text/figures";
import { KEPT } from "../../../web/faces.ts";

const SOURCE = fileURLToPath(new URL("../../../web/src/", import.meta.url));
const ESCAPED = /\\u([0-9a-f]{4})/gi;

/** Every character in the files of a folder that is drawn, those that stand there by number too. */
function written(folder: string): Set<string> {
  const names = readdirSync(join(SOURCE, folder), { recursive: true, encoding: "utf8" });
  const texts = names
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => readFileSync(join(SOURCE, folder, name), "utf8"))
    .map((text) =>
      text.replace(ESCAPED, (_, digits: string) => String.fromCharCode(Number.parseInt(digits, 16))),
    );
  return new Set(texts.join("").replace(/[\p{Cc}\p{Cf}]/gu, ""));
}

describe("the faces", () => {
  it("have what the screens write", () => {
    expect([...written("ui")].filter((one) => !KEPT.text.includes(one))).toEqual([]);
  });

  it("have every figure that a number can be written with", () => {
    const shown = [
      figure(-1234567.8, 1),
      withReach(0.25, 0.5, 2),
      signedKg(-12),
      dayOf("2026-03-04T05:06:07Z", "UTC"),
    ];
    const signs = [...shown.join("")].filter((one) => !/\p{L}/u.test(one));
    expect(signs.filter((one) => !KEPT.figures.includes(one))).toEqual([]);
  });

  it("have what the domain says in its refusals", () => {
    expect([...written("domain")].filter((one) => !KEPT.text.includes(one))).toEqual([]);
  });

  it("have the letters of the names that western Europe gives", () => {
    expect(
      [..."ÄÅÆÇÉÊÍÑÓØÖÚÜßàâãäåæçèéêëìíîïñòóôõöøùúûüýÿ"].filter((one) => !KEPT.text.includes(one)),
    ).toEqual([]);
  });
});
