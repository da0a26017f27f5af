/** What a page may say to the worker. */
export const TAKE_OVER = "take-over";
