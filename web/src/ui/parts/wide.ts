import { useEffect, useState } from "preact/hooks";

/** Whether the page is at least so wide, or on paper. */
export function useWide(from_rem: number): boolean {
  const [query] = useState(() => matchMedia(`(min-width: ${from_rem}rem), print`));
  const [wide, setWide] = useState(query.matches);
  useEffect(() => {
    const look = () => setWide(query.matches);
    // said before the sheet is laid out, which a change of the query need not be
    const toPaper = () => setWide(true);
    look();
    query.addEventListener("change", look);
    addEventListener("resize", look);
    addEventListener("beforeprint", toPaper);
    addEventListener("afterprint", look);
    return () => {
      query.removeEventListener("change", look);
      removeEventListener("resize", look);
      removeEventListener("beforeprint", toPaper);
      removeEventListener("afterprint", look);
    };
  }, [query]);
  return wide;
}
