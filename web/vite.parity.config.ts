import { defineConfig } from "vite";

// The domain alone, as one module that Node can run: the parity test asks it and the Python twin the same.
export default defineConfig({
  publicDir: false,
  logLevel: "warn",
  build: {
    ssr: "tools/parity.ts",
    target: "node20",
    minify: false,
    rolldownOptions: { output: { entryFileNames: "parity.mjs", codeSplitting: false } },
  },
  ssr: { noExternal: true },
});
