import { useEffect, useState } from "preact/hooks";
import type { SizeMath } from "../../workbook/index.js";

/** What reads typed sizes: null until its chunk is there, or with the reason why it does not come. */
export interface LoadedMath {
  readonly math: SizeMath | null;
  readonly failure: string | null;
}

/** Loads what reads typed sizes as soon as it is wanted. */
export function useSizeMath(isWanted: boolean): LoadedMath {
  const [loaded, setLoaded] = useState<LoadedMath>({ math: null, failure: null });
  useEffect(() => {
    if (!isWanted || loaded.math !== null) return;
    import("./size-math.js").then(
      ({ sizeMath }) => setLoaded({ math: sizeMath, failure: null }),
      () => setLoaded({ math: null, failure: "Sizes cannot be read: a part of the pane did not load. Open it again." }),
    );
  }, [isWanted, loaded.math]);
  return loaded;
}
