/** Band around a design airflow where the job names none. The job's own specification comes first. */
export const DESIGN_LIMITS = {
  minusPercent: 10,
  plusPercent: 10,
  source: "Public specifications of a county and of a school district: air outlets and inlets within 10 % of design",
  standing: "read",
} as const;
