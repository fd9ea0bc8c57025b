/** Joins the ids of what describes a control, for aria-describedby; undefined where nothing does. */
export function describedBy(ids: Readonly<Record<string, unknown>>): string | undefined {
  const present = Object.entries(ids).flatMap(([id, content]) => (content ? [id] : []));
  return present.length === 0 ? undefined : present.join(" ");
}
