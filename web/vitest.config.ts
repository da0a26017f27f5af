import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const tests = fileURLToPath(new URL("../tests/web", import.meta.url));

// The tests lie beside the Python ones, outside this package: bare imports are resolved from here.
export default defineConfig({
  resolve: {
    alias: {
      "@": fileURLToPath(new URL("./src", import.meta.url)),
      dexie: fileURLToPath(new URL("./node_modules/dexie/dist/modern/dexie.min.mjs", import.meta.url)),
    },
    dedupe: ["vitest", "fast-check", "fake-indexeddb", "preact", "@preact/signals"],
  },
  server: { fs: { allow: [".."] } },
  test: {
    dir: tests,
    include: ["**/*.test.ts"],
    environment: "node",
    testTimeout: 30_000,
    setupFiles: [`${tests}/setup.ts`],
  },
});
