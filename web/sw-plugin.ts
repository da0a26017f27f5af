/** Builds the service worker after the app, with the list of all built files in it, and packs text files. */
import { createHash } from "node:crypto";
import { readdir, readFile, writeFile } from "node:fs/promises";
import { join, relative, resolve, sep } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { build, type Plugin, type ResolvedConfig } from "vite";

const NOT_LISTED = /(^sw\.js$|\.(map|br|gz)$)/;
const TEXT = /\.(js|css|html|svg|json|webmanifest)$/;
/** Kept after the shell: the file of `chunks.ts` for which one sits down. */
const LATER = /^\/assets\/desk-/;
const WORTH_PACKING_BYTES = 512;

interface Listed {
  readonly url: string;
  readonly revision: string | null;
}

export function serviceWorker(entry: string): Plugin {
  let config: ResolvedConfig;
  return {
    name: "own-service-worker",
    apply: "build",
    configResolved(resolved) {
      config = resolved;
    },
    async closeBundle() {
      const out = resolve(config.root, config.build.outDir);
      const manifest = await listed(out);
      await buildWorker({ entry, out, root: config.root, manifest });
      await pack(out);
    },
  };
}

async function filesOf(folder: string): Promise<string[]> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  return found
    .filter((file) => file.isFile())
    .map((file) => relative(folder, join(file.parentPath, file.name)).split(sep).join("/"))
    .sort();
}

/** Files below assets/ carry a hash in their name; all others need a revision. */
async function listed(out: string): Promise<Listed[]> {
  const names = (await filesOf(out)).filter((name) => !NOT_LISTED.test(name));
  return Promise.all(
    names.map(async (name) => ({
      url: `/${name}`,
      revision: name.startsWith("assets/") ? null : sha256(await readFile(join(out, name))),
    })),
  );
}

function sha256(content: Buffer | string): string {
  return createHash("sha256").update(content).digest("hex").slice(0, 16);
}

interface WorkerBuild {
  readonly entry: string;
  readonly out: string;
  readonly root: string;
  readonly manifest: readonly Listed[];
}

async function buildWorker({ entry, out, root, manifest }: WorkerBuild): Promise<void> {
  const list = JSON.stringify(manifest.filter(({ url }) => !LATER.test(url)));
  const later = JSON.stringify(manifest.map(({ url }) => url).filter((url) => LATER.test(url)));
  await build({
    configFile: false,
    root,
    logLevel: "warn",
    publicDir: false,
    define: {
      "self.__WB_MANIFEST": list,
      "self.__LATER": later,
      "self.__BUILD": JSON.stringify(sha256(list + later)),
      "process.env.NODE_ENV": '"production"',
    },
    build: {
      outDir: out,
      emptyOutDir: false,
      target: "es2022",
      copyPublicDir: false,
      rolldownOptions: {
        input: entry,
        output: { format: "iife", entryFileNames: "sw.js", codeSplitting: false },
      },
    },
  });
}

/** The server hands out the .br or .gz beside a file by itself. */
async function pack(out: string): Promise<void> {
  const quality = { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } };
  for (const name of (await filesOf(out)).filter((one) => TEXT.test(one))) {
    const content = await readFile(join(out, name));
    if (content.length < WORTH_PACKING_BYTES) continue;
    await writeFile(join(out, `${name}.br`), brotliCompressSync(content, quality));
    await writeFile(join(out, `${name}.gz`), gzipSync(content, { level: 9 }));
  }
}
