import { useEffect, useState } from "preact/hooks";

/** Whether the screen has room for a table beside the drawing. */
export function useWide(): boolean {
  const [query] = useState(() => matchMedia("(min-width: 60rem)"));
  const [wide, setWide] = useState(query.matches);
  useEffect(() => {
    const look = () => setWide(query.matches);
    query.addEventListener("change", look);
    return () => query.removeEventListener("change", look);
  }, [query]);
  return wide;
}
