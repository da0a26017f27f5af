import { useEffect, useState } from "preact/hooks";

/** Whether the page is at least so wide, or on paper. */
export function useWide(from_rem: number): boolean {
  const [query] = useState(() => matchMedia(`(min-width: ${from_rem}rem), print`));
  const [wide, setWide] = useState(query.matches);
  useEffect(() => {
    const look = () => setWide(query.matches);
    look();
    query.addEventListener("change", look);
    return () => query.removeEventListener("change", look);
  }, [query]);
  return wide;
}
