/**
 * What an uncertainty budget takes while nobody has stated the part.
 *
 * Every figure is in percent of the value. `shape` says how it is meant: "limits" are two ends between which any value
 * is as likely as any other; "standard" is one standard deviation.
 */
export const UNCERTAINTY_DEFAULTS = {
  /** An anemometer whose data sheet is not at hand. */
  instrument: {
    plusMinusPercent: 10,
    shape: "limits",
    source: "DOE/NREL Standard Work Specification 6.6201.4: measuring equipment accurate to ±10 %",
    standing: "read",
  },
  /** A free-area factor that was assumed: published figures for grilles run from about 0.60 to 0.90 around 0.75. */
  assumedFactor: {
    plusMinusPercent: 20,
    shape: "limits",
    source: "Common practice, no source",
    standing: "common practice",
  },
  /** A free-area factor that its manufacturer publishes, used at a grille that sits otherwise than on the test bench. */
  publishedFactor: {
    plusMinusPercent: 10,
    shape: "limits",
    source: "Common practice, no source",
    standing: "common practice",
  },
  /** A tape held across an opening: 1/16 in on a small side, and the edge of the core not always plain. */
  area: {
    plusMinusPercent: 2,
    shape: "limits",
    source: "Common practice, no source",
    standing: "common practice",
  },
  /**
   * One sweep or traverse that nobody repeated.
   *
   * The circular gives a probable error, the 50 % point, of up to ±5 % on the comparison of two widely differing
   * readings: 7.4 % standard on the two, 5.2 % on each. Good instrument, experienced operator.
   */
  repeat: {
    standardPercent: 5,
    shape: "standard",
    source: "IMO MSC/Circ. 729, part 1, appendix 2, 2.1: probable error of comparative readings up to ±5 %",
    standing: "derived",
  },
  /** A reading at one point: in the center of a duct it is 22 % high; at a grille nobody knows. */
  onePoint: {
    standardPercent: 22,
    shape: "standard",
    source: "Assumed; the center of a 1/7-power profile, derived",
    standing: "assumed",
  },
  /** A gauge with divisions of 0.01 in.w.c., as Method 2 asks, read to half a division. */
  gauge: {
    ofReadingPercent: 2,
    fixedInWg: 0.005,
    shape: "limits",
    source: "40 CFR 60 App. A-1, Method 2: divisions of 0.01 in.w.c.; the percent is common practice, no source",
    standing: "derived",
  },
  /** The density of the air in a duct, taken from temperature and elevation without a barometer. */
  density: {
    plusMinusPercent: 3,
    shape: "limits",
    source: "Derived: the weather moves the barometer by 2 or 3 %",
    standing: "derived",
  },
  /** The coefficient of a Pitot tube: 0.99 ± 0.01 for a standard one. */
  pitot: {
    plusMinusPercent: 1,
    shape: "limits",
    source: "40 CFR 60 App. A-1, Method 2: standard Pitot tube 0.99 ± 0.01",
    standing: "read",
  },
} as const;
