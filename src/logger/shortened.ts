/** So much of a field is named to a person. */
const MOST_SHOWN = 40;

/** A field as it is named to a person. */
export function shortened(field: string): string {
  return field.length > MOST_SHOWN ? `${field.slice(0, MOST_SHOWN)}…` : field;
}
