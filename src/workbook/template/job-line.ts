import { jobCell } from "./job-sheet.js";

/** The line under a title: which job, when, by whom. */
export function jobLine(): string {
  return `=${jobText()}`;
}

/** The line over a table that every printed page repeats: what it is, which job, when, by whom. */
export function titledJobLine(title: string): string {
  const job = jobText();
  return `="${title}"&IF(${job}="",""," · "&${job})`;
}

function jobText(): string {
  const [id, name, date, technician] = ["id", "jobName", "date", "technician"].map(jobCell);
  return `${id}&IF(${id}="",""," · ")&${name}&IF(${date}="",""," · "&TEXT(${date},"yyyy-mm-dd"))&IF(${technician}="",""," · "&${technician})`;
}
