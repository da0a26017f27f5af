/** What of a weighing is read sitting down: single wheels and items, and the weighing beside the others. */
export { KilogramAccount } from "./account";
export { ItemTable } from "./items";
export { LeftRight } from "./left_right";
export { SinceLastTime } from "./since";
export { WhatTheyTaught } from "./taught";
