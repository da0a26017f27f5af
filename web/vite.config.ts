import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { byFirstUse } from "./chunks.ts";
import { faces } from "./faces.ts";
import { serviceWorker } from "./sw-plugin.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const server = { target: "http://127.0.0.1:8000", changeOrigin: false };

export default defineConfig({
  plugins: [faces(), serviceWorker(here("../service_worker/sw.ts"))],
  resolve: {
    // the package's own entry is written for browsers that the build leaves out anyway
    alias: { "@": here("./src"), dexie: "dexie/dist/modern/dexie.min.mjs" },
  },
  server: { proxy: { "/api": server } },
  build: {
    outDir: "../server/static",
    emptyOutDir: true,
    target: "es2022",
    modulePreload: { polyfill: false },
    // a font inlined as data: would break `font-src 'self'`
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    rolldownOptions: {
      checks: { ineffectiveDynamicImport: false }, // screens that share a file are meant to
      output: {
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [{ name: byFirstUse(), debugName: "by first use" }],
        },
      },
    },
  },
});
