/**
 * Returns a draft with what was kept of it: a part that is missing or of another kind, as an older pane may have left
 * it, starts anew.
 */
export function restoredDraft<Draft extends object>(kept: unknown, initial: Draft): Draft {
  if (typeof kept !== "object" || kept === null) return initial;
  const parts = Object.entries(kept).filter(([key, value]) => {
    const start = (initial as Readonly<Record<string, unknown>>)[key];
    return (
      Object.hasOwn(initial, key) && typeof value === typeof start && Array.isArray(value) === Array.isArray(start)
    );
  });
  return { ...initial, ...Object.fromEntries(parts) };
}
