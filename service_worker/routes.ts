/** Which answer a request gets: a pure function, so that it can be read and tested by itself. */
export type Answer = "shell" | "file" | "network";

export interface Asked {
  readonly method: string;
  readonly mode: string;
  readonly url: string;
  readonly origin: string;
}

/** The shell opens every page; a built file comes from the phone; the API is never kept nor answered here. */
export function answerFor({ method, mode, url, origin }: Asked, kept: (path: string) => boolean): Answer {
  const { origin: asked, pathname } = new URL(url);
  if (method !== "GET" || asked !== origin || isApi(pathname)) return "network";
  if (mode === "navigate") return kept(pathname) && !isPage(pathname) ? "file" : "shell";
  return kept(pathname) || pathname.startsWith("/assets/") ? "file" : "network";
}

function isApi(path: string): boolean {
  return path === "/api" || path.startsWith("/api/");
}

function isPage(path: string): boolean {
  return path === "/" || path === "/index.html";
}
