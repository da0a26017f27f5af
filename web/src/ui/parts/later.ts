/** A part of a page whose code comes after the page, in the file of the desk. */
import { useEffect, useState } from "preact/hooks";

/** Undefined while it is on its way, null where it is not on this phone yet. */
export function useLater<T>(load: () => Promise<T>): T | null | undefined {
  const [part, setPart] = useState<{ readonly found: T | null }>();
  useEffect(() => {
    let here = true;
    const found = (one: T | null) => here && setPart({ found: one });
    load().then(found, () => found(null));
    return () => {
      here = false;
    };
  }, []);
  return part?.found;
}
