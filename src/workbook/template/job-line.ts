import { jobCell } from "./job-sheet.js";

/** The line under a title: which job, when, by whom. */
export function jobLine(): string {
  const [id, name, date, technician] = ["id", "jobName", "date", "technician"].map(jobCell);
  return `=${id}&IF(${id}="",""," · ")&${name}&IF(${date}="",""," · "&TEXT(${date},"yyyy-mm-dd"))&IF(${technician}="",""," · "&${technician})`;
}
