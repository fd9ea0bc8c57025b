/** What is wrong for as long as it lasts, and goes on by itself: a reading that fails, a watch that Excel refused. */
export interface StandingProblems {
  /** Says what is wrong with something; null once it works. */
  report(what: string, text: string | null): void;
}

/** Returns what stands, with one problem more, changed or gone; the same map where nothing changes. */
export function withProblem(
  problems: ReadonlyMap<string, string>,
  what: string,
  text: string | null,
): ReadonlyMap<string, string> {
  if ((problems.get(what) ?? null) === text) return problems;
  const others = [...problems].filter(([name]) => name !== what);
  return new Map(text === null ? others : [...others, [what, text]]);
}
