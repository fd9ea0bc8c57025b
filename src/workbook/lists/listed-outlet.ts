import type { UnitSystemName } from "../../core/index.js";
import type { Finding } from "../finding.js";
import type { ShownCell } from "../source/index.js";
import type { OpeningInputs } from "./airflow-from-readings.js";
import type { ListColumnKey, OutletKind, ReadingState } from "./columns.js";
import type { ListRow } from "./list-rows.js";
import type { OutletList } from "./outlet-list.js";

/** An airflow of one state, in the unit of its column; null where there is none. */
export interface ListedAirflow {
  readonly flow: number | null;
  /** Where it comes from: its cell, or its readings, where no formula of the row makes it an airflow. */
  readonly from: "cell" | "readings" | null;
}

/** What a row says of its opening, for an airflow that its formulas do not give. */
export interface RowOpening extends Omit<OpeningInputs, "sizeUnits" | "areaUnits"> {
  readonly sizeUnits: UnitSystemName | null;
  readonly areaUnits: UnitSystemName | null;
  /** Of the airflow of each state. */
  readonly flowUnits: (state: ReadingState) => UnitSystemName | null;
  /** By which every reading is multiplied: 1 in a list without such a column; null where the row has none. */
  readonly velocityFactor: number | null;
  /** Of readings whose column does not say. */
  readonly units: UnitSystemName | null;
  /** Whether one of these holds what cannot be taken. */
  readonly isUnclear: boolean;
}

/** One outlet of a list as its row tells it. Null and "" are what the row does not say, never 0. */
export interface ListedOutlet {
  readonly list: OutletList;
  readonly row: ListRow;
  /** As this and other texts are shown: spaces before, behind and doubled are left out. A cell's own text is in its source. */
  readonly tag: string;
  readonly system: string;
  readonly branch: string;
  readonly room: string;
  /** Null where none is stated, or one that is not known. */
  readonly kind: OutletKind | null;
  /** As the row spells it. */
  readonly kindText: string;
  /** Of the row, as it or its job states them; null where nobody does. */
  readonly units: UnitSystemName | null;
  /** The units of one column: its heading may name others than the row's. */
  readonly unitsOf: (key: ListColumnKey) => UnitSystemName | null;
  /** The diameter where there is no height; in or mm. A size, factor or design of 0 stands for "not given". */
  readonly width: number | null;
  readonly height: number | null;
  /** Free-area factor. */
  readonly factor: number | null;
  /** Whether the row says that its factor is given or assumed; null where it says neither. */
  readonly factorIs: "given" | "assumed" | null;
  /** As the row has it; ft² or m². */
  readonly freeArea: number | null;
  /** All that the row says of its opening, as its airflow would be worked out from it. */
  readonly opening: RowOpening;
  /** cfm or L/s. */
  readonly design: number | null;
  readonly now: ListedAirflow;
  readonly found: ListedAirflow;
  readonly left: ListedAirflow;
  /** The last airflow: as left where there is one, else as it now is, else as found. */
  readonly measured: number | null;
  /** The ± of the last airflow (95 %): in percent, and in cfm or L/s. */
  readonly doubtPercent: number | null;
  readonly plusMinus: number | null;
  /** As stored for the last airflow, and where. */
  readonly percent: ShownCell;
  readonly percentColumn: number | undefined;
  readonly verdict: string;
  readonly verdictColumn: number | undefined;
  /** Of the airflow as found, where it stands beside one as left. */
  readonly foundVerdict: string;
  readonly foundPlusMinus: number | null;
  readonly jobId: string;
  readonly jobName: string;
  readonly technician: string;
  readonly date: ShownCell;
  readonly note: string;
  /** Whether the row says that its reading is from before the last change of a damper or the fan. */
  readonly isOld: boolean;
  /** What is wrong with the row, each at its cell. */
  readonly findings: readonly Finding[];
}
