import { useEffect, useState } from "preact/hooks";

/** Whether the page is at least so wide. */
export function useWide(from_rem: number): boolean {
  const [query] = useState(() => matchMedia(`(min-width: ${from_rem}rem)`));
  const [wide, setWide] = useState(query.matches);
  useEffect(() => {
    const look = () => setWide(query.matches);
    query.addEventListener("change", look);
    return () => query.removeEventListener("change", look);
  }, [query]);
  return wide;
}
