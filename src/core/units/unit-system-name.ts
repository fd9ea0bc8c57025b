/** The two systems that quantities are entered and shown in: "ip" for in, fpm and cfm, "si" for mm, m/s and L/s. */
export type UnitSystemName = "ip" | "si";
