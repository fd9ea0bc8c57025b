/** One supply or return opening and what was read at it; null where it is not known or not read. */
export interface DemoOutlet {
  readonly outlet: string;
  readonly room: string;
  readonly air: "supply" | "return";
  /** The diameter where there is no height. */
  readonly widthIn: number;
  readonly heightIn: number | null;
  readonly freeAreaRatio: number | null;
  readonly designCfm: number;
  readonly readingsFpm: readonly (number | null)[];
}

/** A traverse of the trunk: rows of readings, each for an equal part of the duct. */
export interface DemoTrunk {
  readonly name: string;
  readonly widthIn: number;
  readonly heightIn: number;
  readonly readingsFpm: readonly (readonly (number | null)[])[];
}

/** The invented job that the page opens with. */
export interface DemoJob {
  readonly about: string;
  readonly name: string;
  readonly minusPercent: number;
  readonly plusPercent: number;
  readonly rooms: readonly string[];
  readonly outlets: readonly DemoOutlet[];
  readonly trunk: DemoTrunk;
}
