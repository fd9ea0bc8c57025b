import type { UnitSystemName } from "../../core/index.js";
/** How a measured airflow is judged against its limits. */
export type DecisionRule = "simple" | "guarded";

/** What a job states once for all its measurements, as its sheet of job details holds it. Null is not stated. */
export interface JobDetails {
  /** The job as the office files it. */
  readonly jobNumber: string | null;
  readonly technician: string | null;
  readonly jobName: string | null;
  /** The day of the readings as the number that a spreadsheet keeps for it. */
  readonly dateSerial: number | null;
  /** Kind, manufacturer and model of the meter; its serial number; the day on its certificate, as a spreadsheet's number. */
  readonly instrument: string | null;
  readonly instrumentSerial: string | null;
  readonly calibratedSerial: number | null;
  /** The day from which its calibration no longer holds. */
  readonly calibrationDueSerial: number | null;
  /** For whom and where. */
  readonly customer: string | null;
  readonly site: string | null;
  readonly units: UnitSystemName;
  /** Above sea level, in ft or m. */
  readonly elevation: number | null;
  /** Of the air that is measured, in °F or °C. */
  readonly temperature: number | null;
  readonly humidityPercent: number | null;
  /** Read on site, not reduced to sea level, in inHg or kPa; it comes before the elevation. */
  readonly barometer: number | null;
  readonly minusPercent: number | null;
  readonly plusPercent: number | null;
  readonly outsideMinusPercent: number | null;
  readonly outsidePlusPercent: number | null;
  /** "simple": the airflow as measured is judged; "guarded": both ends of its ± are. Null is simple. */
  readonly decisionRule: DecisionRule | null;
  /** The ± of the instrument, of a published factor, of an area; and how well the mean of repeated sweeps repeats. */
  readonly instrumentPercent: number | null;
  readonly factorPercent: number | null;
  readonly areaPercent: number | null;
  readonly repeatPercent: number | null;
  /** How many sweeps the repeat figure comes from; without it the figure counts for nothing. */
  readonly repeatSweeps: number | null;
  /** The step of the meter's last digit, in fpm or m/s. */
  readonly resolution: number | null;
}

/** The defined name of each detail in a workbook. */
export const JOB_DETAIL_NAMES: Readonly<Record<keyof JobDetails, string>> = {
  jobNumber: "Job_Id",
  technician: "Job_Technician",
  jobName: "Job_Name",
  dateSerial: "Job_Date",
  instrument: "Job_Instrument",
  instrumentSerial: "Job_InstrumentSerial",
  calibratedSerial: "Job_InstrumentCalibrated",
  calibrationDueSerial: "Job_InstrumentDue",
  customer: "Job_Customer",
  site: "Job_Site",
  units: "Job_Units",
  elevation: "Job_Elevation",
  temperature: "Job_AirTemperature",
  humidityPercent: "Job_Humidity",
  barometer: "Job_Barometer",
  minusPercent: "Job_LimitMinus",
  plusPercent: "Job_LimitPlus",
  outsideMinusPercent: "Job_OutsideAirLimitMinus",
  outsidePlusPercent: "Job_OutsideAirLimitPlus",
  decisionRule: "Job_DecisionRule",
  instrumentPercent: "Job_InstrumentPercent",
  factorPercent: "Job_FactorPercent",
  areaPercent: "Job_AreaPercent",
  repeatPercent: "Job_RepeatPercent",
  repeatSweeps: "Job_RepeatSweeps",
  resolution: "Job_InstrumentResolution",
};

/** A job about which nothing is stated: inch-pound, and every assumption stands. */
export const UNSTATED_JOB: JobDetails = {
  jobNumber: null,
  technician: null,
  jobName: null,
  dateSerial: null,
  instrument: null,
  instrumentSerial: null,
  calibratedSerial: null,
  calibrationDueSerial: null,
  customer: null,
  site: null,
  units: "ip",
  elevation: null,
  temperature: null,
  humidityPercent: null,
  barometer: null,
  minusPercent: null,
  plusPercent: null,
  outsideMinusPercent: null,
  outsidePlusPercent: null,
  decisionRule: null,
  instrumentPercent: null,
  factorPercent: null,
  areaPercent: null,
  repeatPercent: null,
  repeatSweeps: null,
  resolution: null,
};
