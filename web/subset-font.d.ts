/** The package brings no types of its own; these are of what faces.ts uses. */
declare module "subset-font" {
  interface Options {
    readonly targetFormat: "woff2";
    readonly noHinting: boolean;
    readonly noLayoutClosure: boolean;
    readonly keepFeatures: readonly string[];
    readonly preserveNameIds: readonly number[];
  }
  export default function subsetFont(face: Buffer, characters: string, options: Options): Promise<Buffer>;
}
