import { useEffect, useState } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";

/** Whether the host waits for the person, as for the end of an edit of a cell. */
export function useWaiting(host: InteractiveHost): boolean {
  const [isWaiting, setWaiting] = useState(false);
  useEffect(() => host.watchWaiting?.(setWaiting), [host]);
  return isWaiting;
}
