// Live queries look for the database in the global scope when their library is loaded: before any test's imports.
import "fake-indexeddb/auto";
