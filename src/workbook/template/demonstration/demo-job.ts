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

/** A traverse of the trunk: lines of readings, each for an equal part of the duct. */
export interface DemoTrunk {
  readonly name: string;
  readonly widthIn: number;
  readonly heightIn: number;
  readonly readingsFpm: readonly (readonly (number | null)[])[];
}

/** What was read at an outlet before and after its damper was set. */
export interface DemoChange {
  readonly outlet: string;
  readonly foundFpm: readonly number[];
  readonly leftFpm: readonly number[];
}

/** The invented job that the page opens with. */
export interface DemoJob {
  readonly about: string;
  readonly name: string;
  readonly jobNumber: string;
  readonly technician: string;
  /** ISO 8601. */
  readonly date: string;
  readonly system: string;
  readonly minusPercent: number;
  readonly plusPercent: number;
  readonly rooms: readonly string[];
  readonly outlets: readonly DemoOutlet[];
  readonly trunk: DemoTrunk;
  readonly changes: readonly DemoChange[];
}
