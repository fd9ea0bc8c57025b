/** Ids whose first word names a group of its own; the rest of the groups follow from the first word. */
const GROUP_TITLES: Readonly<Record<string, string>> = {
  AIR: "Air",
  AIRFLOW: "Airflow",
  BALANCE: "Balance",
  CHANGE: "Before and after",
  DESIGN: "Design",
  FAN: "Fan",
  HEAT: "Heat",
  OPENING: "Openings",
  SHEET: "Whole sheets",
  SWEEP: "Timed sweeps",
  TRAVERSE: "Traverses",
  UNCERTAINTY: "Trust",
  WORKINGS: "Workings",
};

/** What a group of functions is called, by the first word of their ids. */
export function groupTitle(key: string): string {
  return GROUP_TITLES[key] ?? key;
}
