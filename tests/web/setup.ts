// Live queries look for the database in the global scope when their library is loaded: before any test's imports.
import "fake-indexeddb/auto";
import fc from "fast-check";

// Every run draws the same, so that what passed passes again; another SEED draws anew.
fc.configureGlobal({ seed: Number(process.env.SEED ?? 1) });
