/** Band around a design airflow where the job names none. The job's own specification comes first. */
export const DESIGN_LIMITS = {
  minusPercent: 10,
  plusPercent: 10,
  source: "Public specifications of a county and of a school district: air outlets and inlets within 10 % of design",
  standing: "read",
} as const;

/** The same for an outside-air inlet: less than its design would be less ventilation than the code asks. */
export const OUTSIDE_AIR_LIMITS = {
  minusPercent: 0,
  plusPercent: 10,
  source: "County public-works specification §15990, “Balance requirements”: outside air −0 % / +10 %",
  standing: "read",
} as const;
