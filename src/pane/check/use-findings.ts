import { useEffect, useReducer } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";
import { usePane } from "../shell/pane-context.js";
import { type FindingsState, type FindingsStore, findingsStore } from "./findings-store.js";

/** The tab and its label look at the same findings. */
const stores = new WeakMap<InteractiveHost, FindingsStore>();

function storeOf(host: InteractiveHost): FindingsStore {
  const known = stores.get(host);
  if (known !== undefined) return known;
  const store = findingsStore(host, () => performance.now());
  stores.set(host, store);
  return store;
}

/** The findings of the workbook. */
export function useFindings(): FindingsState & Pick<FindingsStore, "check"> {
  const { host } = usePane();
  const store = storeOf(host);
  const [, redraw] = useReducer((count: number) => count + 1, 0);
  useEffect(() => store.subscribe(() => redraw(undefined)), [store]);
  return { ...store.current(), check: store.check };
}
