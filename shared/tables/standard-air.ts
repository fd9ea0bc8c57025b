/** Air at which the trade's constants are printed and to which "standard" velocities and airflows refer. */
export const STANDARD_AIR = {
  densityLbFt3: 0.075,
  source: "Common practice: dry air at sea level and about 70 degF (0.07489 lb/ft3 by the gas law, 0.075 at 69.2 degF)",
  standing: "common practice",
} as const;
