/**
 * Part of a louvered opening that is free where its maker publishes nothing.
 *
 * The only published base that we know: the fuel-gas code allows these two figures for the louvers of openings that
 * bring combustion air in by gravity. The trade uses the 0.75 for every metal face, which is common practice; the
 * factor of a real face may well lie 10 % or more away from it.
 */
export const ASSUMED_FREE_AREA = {
  metal: {
    freeAreaRatio: 0.75,
    source: "NFPA 54, combustion-air openings with metal louvers, as quoted in a gas utility's engineering guide",
    standing: "read",
  },
  wood: {
    freeAreaRatio: 0.25,
    source: "NFPA 54, combustion-air openings with wood louvers, as quoted in a gas utility's engineering guide",
    standing: "read",
  },
} as const;
