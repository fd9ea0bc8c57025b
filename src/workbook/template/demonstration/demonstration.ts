import { dateSerial } from "../../../xlsx/index.js";
import { beforeAfter } from "../before-after/before-after.js";
import { ductTraverse } from "../duct-traverse/duct-traverse.js";
import { CELLS, ROWS, readingColumn } from "../duct-traverse/places.js";
import { type FilledCells, type FilledRow, jobEntries, numbered, tableEntries } from "../fill-plan.js";
import { roomBalance } from "../room-balance/room-balance.js";
import type { WorkbookPlan } from "../sheet-plan.js";
import type { DemoJob, DemoOutlet } from "./demo-job.js";

/** The file of the demonstration among those of the templates. */
export const DEMONSTRATION_FILE = "demonstration";

/** By so much sensible load a room asks for 1 cfm: invented, so that the shares by load come to the outlets' designs. */
const BTU_H_PER_CFM = 20;

const isNotNull = <Value>(value: Value | null): value is Value => value !== null;

/**
 * The sheets of the demonstration: a room balance with a traverse of its trunk and a comparison before and after, as
 * a person would bring them together from the templates.
 */
export function demonstrationPlan(): WorkbookPlan {
  const parts = [roomBalance(""), ductTraverse(""), beforeAfter("")];
  const [balance, ...others] = parts;
  return {
    title: "Demonstration",
    description: "A small house with invented readings, to try things on.",
    sheets: [
      ...(balance?.sheets ?? []),
      ...others.flatMap(({ sheets }) => sheets.filter(({ role }) => role !== "job")),
    ],
    names: balance?.names ?? [],
  };
}

function outletCells({ outlet, room, air, widthIn, heightIn, freeAreaRatio, designCfm }: DemoOutlet, system: string) {
  return {
    Outlet: outlet,
    System: system,
    Room: room,
    Kind: air,
    "Width or diameter": widthIn,
    Height: heightIn,
    Factor: freeAreaRatio,
    "Design airflow": designCfm,
  } satisfies FilledRow;
}

const sum = (outlets: readonly DemoOutlet[]) => outlets.reduce((total, { designCfm }) => total + designCfm, 0);

function roomRows({ rooms, outlets, system }: DemoJob): readonly FilledRow[] {
  return rooms.map((room) => {
    const supply = sum(outlets.filter((outlet) => outlet.room === room && outlet.air === "supply"));
    return { Room: room, System: system, "Cooling load": supply * BTU_H_PER_CFM };
  });
}

function changeRows({ changes, outlets, system }: DemoJob): readonly FilledRow[] {
  return changes
    .map(({ outlet: tag, foundFpm, leftFpm }) => {
      const outlet = outlets.find((one) => one.outlet === tag);
      if (outlet === undefined) return null;
      return { ...outletCells(outlet, system), ...numbered("B", foundFpm), ...numbered("A", leftFpm) };
    })
    .filter(isNotNull);
}

function trunkCells({ trunk, system, outlets }: DemoJob): FilledCells[string] {
  const at = (cell: string) => cell.replaceAll("$", "");
  const lines = trunk.readingsFpm.flatMap((line, number) =>
    line.map((velocity, point) => [`${readingColumn(number + 1)}${ROWS.gridFirst + point}`, velocity] as const),
  );
  return {
    B5: system,
    B6: trunk.name,
    [at(CELLS.rule)]: "equal area",
    [at(CELLS.width)]: trunk.widthIn,
    [at(CELLS.height)]: trunk.heightIn,
    [at(CELLS.lines)]: trunk.readingsFpm.length,
    [at(CELLS.points)]: trunk.readingsFpm[0]?.length ?? null,
    [at(CELLS.design)]: sum(outlets.filter(({ air }) => air === "supply")),
    ...Object.fromEntries(lines),
  };
}

/** What is filled into the sheets of the demonstration. */
export function demonstrationEntries(plan: WorkbookPlan, job: DemoJob): FilledCells {
  const { outlets, system } = job;
  const supply = sum(outlets.filter(({ air }) => air === "supply"));
  const back = sum(outlets.filter(({ air }) => air === "return"));
  return {
    ...jobEntries({
      Job_Id: job.jobNumber,
      // What is invented says so on every sheet that is printed.
      Job_Name: `${job.name} (invented: no such house, no such readings)`,
      Job_Date: dateSerial(job.date, false),
      Job_Technician: job.technician,
      Job_LimitMinus: job.minusPercent,
      Job_LimitPlus: job.plusPercent,
    }),
    ...tableEntries(
      plan,
      "Outlets",
      outlets.map((outlet) => ({ ...outletCells(outlet, system), ...numbered("R", outlet.readingsFpm) })),
    ),
    ...tableEntries(plan, "Rooms", roomRows(job)),
    ...tableEntries(plan, "Systems", [{ System: system, "Supply design": supply, "Return design": back }]),
    "Duct traverse": trunkCells(job),
    ...tableEntries(plan, "Changes", changeRows(job)),
  };
}
