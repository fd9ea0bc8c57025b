/**
 * What stands in an uncertainty budget while nobody has stated the part.
 *
 * Every figure is a ± in percent of the value. `shape` says how it is meant: "limits" are two ends between which
 * any value is as likely as any other; "expanded" is a figure at about 95 %, that is twice the standard uncertainty.
 */
export const UNCERTAINTY_DEFAULTS = {
  /** An anemometer whose data sheet is not at hand. */
  instrument: {
    plusMinusPercent: 10,
    shape: "limits",
    source: "DOE/NREL Standard Work Specification 6.6201.4: measuring equipment accurate to ±10 %",
    standing: "read",
  },
  /** A free-area factor that was assumed: published figures for faces run from about 0.60 to 0.90 around 0.75. */
  assumedFactor: {
    plusMinusPercent: 20,
    shape: "limits",
    source: "Common practice, no source",
    standing: "common practice",
  },
  /** A free-area factor that its maker publishes, used at a face that stands otherwise than on the test bench. */
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
  /** One sweep or traverse that nobody repeated. */
  repeat: {
    plusMinusPercent: 5,
    shape: "expanded",
    source: "IMO MSC/Circ. 729, part 2: comparative anemometer readings, ±2 % to ±5 %; the wider end",
    standing: "read",
  },
} as const;
