import { useCallback, useEffect, useLayoutEffect, useReducer } from "preact/hooks";
import { usePane } from "../shell/pane-context.js";
import { isSameDraft } from "./merge-drafts.js";
import { restoredDraft } from "./restored-draft.js";

/** What happens to a draft: the person acts, or another window or a kept draft puts another in its place. */
type Happening<Draft, Action> = { readonly action: Action } | { readonly replacedBy: Draft };

/**
 * A reducer whose state outlives the tab and the pane, and belongs to the workbook at hand.
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
  const step = useCallback(
    (draft: Draft, happening: Happening<Draft, Action>) =>
      "action" in happening ? reducer(draft, happening.action) : happening.replacedBy,
    [reducer],
  );
  const [draft, happen] = useReducer(step, initial, (start: Draft) => restoredDraft(drafts.read(key), start));
  const dispatch = useCallback((action: Action) => happen({ action }), []);
  // At once: a tab that is left right after a key would not live to see a later effect.
  useLayoutEffect(() => {
    drafts.write(key, isSameDraft(draft, initial) ? undefined : draft);
  }, [draft, drafts, initial, key]);
  useEffect(
    () => drafts.subscribe(key, (kept) => happen({ replacedBy: restoredDraft(kept, initial) })),
    [drafts, initial, key],
  );
  return [draft, dispatch];
}
