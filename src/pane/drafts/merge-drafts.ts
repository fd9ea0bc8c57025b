type Parts = Readonly<Record<string, unknown>>;

function isParts(value: unknown): value is Parts {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Whether two drafts say the same; both survive JSON. */
export function isSameDraft(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) return false;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].every((key) => isSameDraft((one as Parts)[key], (other as Parts)[key]));
}

/** What both put at the end stays, theirs first; of words, which come once each, also what either took away is gone. */
function mergeLists(base: readonly unknown[], ours: readonly unknown[], theirs: readonly unknown[]): unknown {
  if ([...ours, ...theirs].every((entry) => typeof entry === "string")) {
    const gone = base.filter((entry) => !ours.includes(entry) || !theirs.includes(entry));
    return [...new Set([...theirs, ...ours])].filter((entry) => !gone.includes(entry));
  }
  const isLonger = (list: readonly unknown[]) => base.every((entry, index) => isSameDraft(entry, list[index]));
  return isLonger(ours) && isLonger(theirs) ? [...theirs, ...ours.slice(base.length)] : ours;
}

/**
 * Returns a draft with what two windows did to it, field by field: a field that only one of them changed is theirs, one
 * that both changed is ours.
 *
 * @param base - The draft that both started from
 */
export function mergeDrafts(base: unknown, ours: unknown, theirs: unknown): unknown {
  if (isSameDraft(ours, base)) return theirs;
  if (isSameDraft(theirs, base)) return ours;
  if (Array.isArray(ours) && Array.isArray(theirs)) return mergeLists(Array.isArray(base) ? base : [], ours, theirs);
  if (!isParts(ours) || !isParts(theirs)) return ours;
  const from = isParts(base) ? base : {};
  const keys = [...new Set([...Object.keys(ours), ...Object.keys(theirs)])];
  const merged = keys.map((key) => [key, mergeDrafts(from[key], ours[key], theirs[key])] as const);
  return Object.fromEntries(merged.filter(([, value]) => value !== undefined));
}
