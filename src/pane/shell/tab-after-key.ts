/** Returns the tab that a key leads to, round and round at the ends; null for a key that leads nowhere. */
export function tabAfterKey(ids: readonly string[], current: string, key: string): string | null {
  const place = ids.indexOf(current);
  const last = ids.length - 1;
  const steps: Readonly<Record<string, number>> = {
    ArrowRight: place === last ? 0 : place + 1,
    ArrowLeft: place <= 0 ? last : place - 1,
    Home: 0,
    End: last,
  };
  const next = Object.hasOwn(steps, key) ? steps[key] : undefined;
  return next === undefined ? null : (ids[next] ?? null);
}
