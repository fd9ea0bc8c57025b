import { useLayoutEffect, useReducer } from "preact/hooks";
import { usePane } from "../shell/pane-context.js";
import { restoredDraft } from "./restored-draft.js";

/**
 * A reducer whose state outlives the tab and the pane.
 *
 * @param key - Name of the draft, one for each tab
 * @param reducer - Pure; the state it returns must survive JSON
 * @param initial - What a first visit starts from
 */
export function useDraft<Draft extends object, Action>(
  key: string,
  reducer: (draft: Draft, action: Action) => Draft,
  initial: Draft,
): readonly [Draft, (action: Action) => void] {
  const { drafts } = usePane();
  const [draft, dispatch] = useReducer(reducer, initial, (start) => restoredDraft(drafts.read(key), start));
  // At once: a tab that is left right after a key would not live to see a later effect.
  useLayoutEffect(() => {
    if (draft !== initial) drafts.write(key, draft);
  }, [draft, drafts, initial, key]);
  return [draft, dispatch];
}
