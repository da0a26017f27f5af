import { describe, expect, it } from "vitest";
import { answerFor } from "../../../service_worker/routes";

const origin = "https://tareway.example";
const kept = (path: string) => ["/index.html", "/icon.svg", "/assets/main-12345678.js"].includes(path);
const ask = (path: string, over = {}) =>
  answerFor({ method: "GET", mode: "cors", url: new URL(path, origin).href, origin, ...over }, kept);

describe("the worker's routes", () => {
  it.each([
    ["/", "shell"],
    ["/index.html", "shell"],
    ["/b/018f/weigh", "shell"],
    ["/icon.svg", "file"],
    ["/api/openapi.json", "network"],
    ["/api", "network"],
  ])("a page at %s: %s", (path, wanted) => {
    expect(ask(path, { mode: "navigate" })).toBe(wanted);
  });

  it.each([
    ["/assets/main-12345678.js", "file"],
    ["/assets/older-12345678.js", "file"],
    ["/api/session", "network"],
    ["/else.txt", "network"],
    ["https://other.example/icon.svg", "network"],
  ])("a request for %s: %s", (path, wanted) => {
    expect(ask(path)).toBe(wanted);
  });

  it("never answers what changes something", () => {
    expect(ask("/", { method: "POST", mode: "navigate" })).toBe("network");
  });
});
