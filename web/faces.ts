/**
 * Cuts the faces to the characters that the app writes, before anything is built or served.
 *
 * The screen's own words need few characters; people's names of vehicles and places may have the letters of western
 * Europe. Any other character is drawn by the device's own face. Instructions for the grid of coarse screens
 * (hinting) are half of a file and do nothing at the sizes used here.
 */
import { mkdir, readFile, writeFile } from "node:fs/promises";
import subsetFont from "subset-font";
import type { Plugin } from "vite";

const PACKAGES = new URL("./node_modules/@fontsource/", import.meta.url);
/** Where the stylesheet finds them; git ignores it. */
const CUT = new URL("./.faces/", import.meta.url);
const COPYRIGHT_AND_LICENCE = [0, 13, 14];

const ascii = span(0x20, 0x7e);
const letters = [...span(0xc0, 0xff)].filter((one) => /\p{L}/u.test(one)).join("");
const SPACES = "\u00a0\u2009\u202f";
const FIGURES = "0123456789+-.,:/%±×·°−…– ";
const signs = `±×·°−←→…–—’‘“”${SPACES}`;

/** What each family is cut to. Figures are digits and the signs among them; words beside them are in the text face. */
export const KEPT = { text: ascii + letters + signs, figures: `${FIGURES}${SPACES}` } as const;

const FAMILIES = [
  { name: "text", from: "atkinson-hyperlegible" },
  { name: "figures", from: "atkinson-hyperlegible-mono" },
] as const;

export function faces(): Plugin {
  return {
    name: "own-faces",
    async buildStart() {
      await mkdir(CUT, { recursive: true });
      for (const { name, from } of FAMILIES) {
        for (const weight of [400, 700]) {
          const whole = await readFile(
            new URL(`${from}/files/${from}-latin-${weight}-normal.woff2`, PACKAGES),
          );
          await writeFile(new URL(`${name}-${weight}.woff2`, CUT), await cut(whole, KEPT[name]));
        }
      }
    },
  };
}

function cut(whole: Buffer, characters: string): Promise<Buffer> {
  return subsetFont(whole, characters, {
    targetFormat: "woff2",
    noHinting: true,
    noLayoutClosure: true,
    keepFeatures: ["kern"],
    preserveNameIds: COPYRIGHT_AND_LICENCE,
  });
}

function span(first: number, last: number): string {
  return String.fromCodePoint(...Array.from({ length: last - first + 1 }, (_, step) => first + step));
}
