/** What the screens write is drawn in the app's own faces: no character of theirs was cut away. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { KEPT } from "../../../web/faces.ts";

const SOURCE = fileURLToPath(new URL("../../../web/src/", import.meta.url));
const ESCAPED = /\\u([0-9a-f]{4})/gi;

/** Every character in the files of a folder, those that stand there by number too. */
function written(folder: string): Set<string> {
  const names = readdirSync(join(SOURCE, folder), { recursive: true, encoding: "utf8" });
  const texts = names
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => readFileSync(join(SOURCE, folder, name), "utf8"))
    .map((text) =>
      text.replace(ESCAPED, (_, digits: string) => String.fromCharCode(Number.parseInt(digits, 16))),
    );
  return new Set(texts.join("").replace(/[\n\t]/g, ""));
}

describe("the faces", () => {
  it.each(["text", "figures"] as const)("have what the screens write: %s", (family) => {
    const missing = [...written("ui")].filter((one) => !KEPT[family].includes(one));
    expect(missing).toEqual([]);
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
