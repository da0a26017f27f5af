/** What is said of a weighing beside the others: read sitting down, and fetched after the page. */
export { KilogramAccount } from "./account";
export { SinceLastTime } from "./since";
export { WhatTheyTaught } from "./taught";
