import demoHouse from "../../shared/demo/demo-house.json" with { type: "json" };
import { type CellContent, JOB_NAMES, type TemplateId, type TemplatePlan } from "../../src/workbook/index.js";
import type { Entries } from "../../src/workbook/plan-file/index.js";
import { formatAddress, parseRange } from "../../src/xlsx/index.js";

type Row = Readonly<Record<string, CellContent>>;

/** Puts rows into the input columns of a plan's table, by their headers; what is null stays empty. */
function tableEntries(plan: TemplatePlan, tableName: string, rows: readonly Row[]): Entries {
  const sheet = plan.sheets.find(({ tables }) => tables.some(({ name }) => name === tableName));
  const table = sheet?.tables.find(({ name }) => name === tableName);
  const range = parseRange(table?.range ?? "");
  if (sheet === undefined || table === undefined || range === undefined) throw new Error(`There is no ${tableName}.`);
  const cells = rows.flatMap((row, index) =>
    Object.entries(row).flatMap(([header, content]) => {
      const column = table.columns.findIndex(({ name }) => name === header);
      if (column < 0 || table.columns[column]?.formula !== null) throw new Error(`${header} is no input.`);
      return content === null ? [] : [[formatAddress(range.firstRow + 1 + index, column + 1), content] as const];
    }),
  );
  return { [sheet.name]: Object.fromEntries(cells) };
}

function spread(headers: string, values: readonly (number | null)[], count: number): Row {
  return Object.fromEntries(values.slice(0, count).map((value, index) => [`${headers}${index + 1}`, value]));
}

const SYSTEM = "AHU-1";

const outletRow = (outlet: (typeof demoHouse.outlets)[number]): Row => ({
  Outlet: outlet.outlet,
  System: SYSTEM,
  Room: outlet.room,
  Kind: outlet.air,
  "Width or diameter": outlet.widthIn,
  Height: outlet.heightIn,
  Factor: outlet.freeAreaRatio,
  "Design airflow": outlet.designCfm,
});

/** Entries on the sheet of job details, by the names of its cells. */
function jobEntries(values: Readonly<Record<string, CellContent>>): Entries {
  const cells = Object.entries(values).map(([wanted, content]) => {
    const place = JOB_NAMES.find(({ name }) => name === wanted);
    if (place === undefined) throw new Error(`There is no name ${wanted}.`);
    return [place.refersTo.replace("Job!", "").replaceAll("$", ""), content] as const;
  });
  return { Job: Object.fromEntries(cells) };
}

const JOB = jobEntries({
  Job_Id: "D-001",
  Job_Name: demoHouse.name,
  Job_Date: 46_000,
  Job_Technician: "Invented technician",
  Job_Elevation: 5280,
  Job_AirTemperature: 68,
  Job_Humidity: 40,
});

function roomBalance(plan: TemplatePlan): Entries {
  const supply = demoHouse.outlets.filter(({ air }) => air === "supply");
  const total = supply.reduce((sum, { designCfm }) => sum + designCfm, 0);
  return {
    ...JOB,
    ...tableEntries(
      plan,
      "Outlets",
      demoHouse.outlets.map((outlet) => ({ ...outletRow(outlet), ...spread("R", outlet.readingsFpm, 6) })),
    ),
    ...tableEntries(
      plan,
      "Rooms",
      demoHouse.rooms.map((room, index) => ({
        Room: room,
        System: SYSTEM,
        "Heating load": 1500 + 137 * index,
        "Cooling load": index === 4 ? null : 2400 - 91 * index,
        "Design set": index === 2 ? 150 : null,
        Volume: index % 2 === 0 ? 1000 + 50 * index : null,
      })),
    ),
    ...tableEntries(plan, "Systems", [{ System: SYSTEM, "Supply design": total, "Return design": 1160 }]),
  };
}

function ductTraverse(reading: (velocityFpm: number) => number, more: Row): Entries {
  const { trunk } = demoHouse;
  const grid = trunk.readingsFpm.flatMap((line, lineIndex) =>
    line.map((velocity, point) => [`${"DFH".charAt(lineIndex)}${25 + point}`, reading(velocity)] as const),
  );
  return {
    ...JOB,
    "Duct traverse": {
      B5: SYSTEM,
      B9: "equal area",
      G5: trunk.widthIn,
      G6: trunk.heightIn,
      G7: 0.0625,
      G8: 3,
      G9: 3,
      G10: 12,
      G13: 1200,
      ...Object.fromEntries(grid),
      ...more,
    },
  };
}

function faceSweep(plan: TemplatePlan): Entries {
  const seconds = [30, 32, 28, 31];
  return {
    ...JOB,
    ...tableEntries(
      plan,
      "Sweeps",
      demoHouse.outlets.map((outlet, index) => {
        const velocities = outlet.readingsFpm.slice(0, 1 + (index % 4));
        const times = velocities.map((velocity, at) =>
          velocity === null || index === 9 ? null : (seconds[at] ?? null),
        );
        return { ...outletRow(outlet), ...spread("V", velocities, 4), ...spread("s", times, 4) };
      }),
    ),
  };
}

function beforeAfter(plan: TemplatePlan): Entries {
  return {
    ...JOB,
    ...tableEntries(
      plan,
      "Changes",
      demoHouse.outlets.map((outlet, index) => {
        const ratio = [1, 1.02, 1.3, 0.7][index % 4] ?? 1;
        const after = outlet.readingsFpm.map((velocity) => (velocity === null ? null : Math.round(velocity * ratio)));
        return {
          ...outletRow(outlet),
          ...spread("B", outlet.readingsFpm, 4),
          ...(index === 5 ? {} : spread("A", after, 4)),
        };
      }),
    ),
  };
}

function jobSummary(plan: TemplatePlan): Entries {
  return {
    ...JOB,
    ...tableEntries(
      plan,
      "JobSummary",
      demoHouse.outlets.map((outlet, index) => ({
        Outlet: outlet.outlet,
        System: SYSTEM,
        Room: outlet.room,
        Kind: outlet.air,
        Width: outlet.widthIn,
        Height: outlet.heightIn,
        Factor: outlet.freeAreaRatio ?? 0.75,
        "Factor assumed": outlet.freeAreaRatio === null ? "yes" : "no",
        "Design airflow": index === 7 ? null : outlet.designCfm,
        "Measured before": index % 3 === 2 ? null : outlet.designCfm * 0.82,
        "Measured after": index % 4 === 3 ? null : outlet.designCfm * ([0.9, 1.02, 1.15][index % 3] ?? 1),
        "Plus or minus": 20,
      })),
    ),
  };
}

/** The invented demonstration job in each template. */
export function filledWith(template: TemplateId, plan: TemplatePlan): Entries {
  switch (template) {
    case "room-balance":
      return roomBalance(plan);
    case "duct-traverse":
      return ductTraverse((velocity) => velocity, {});
    case "face-sweep":
      return faceSweep(plan);
    case "before-after":
      return beforeAfter(plan);
    case "job-summary":
      return jobSummary(plan);
  }
}

/** A room balance with a re-test in which every outlet was read, drawn or not, one beside no tag and one in words. */
export function retestedBalance(plan: TemplatePlan): Entries {
  const rows = demoHouse.outlets.map(({ outlet, readingsFpm, designCfm }, index): Row => {
    const tag = index === 3 ? null : outlet;
    const first = index === 4 ? "about 400" : (readingsFpm[0] ?? 400);
    return { "Outlet read": tag, "Reported then": index === 5 ? null : designCfm, W1: first };
  });
  const read = tableEntries(plan, "Retest", rows);
  return { ...roomBalance(plan), "Re-test": { ...read["Re-test"], C5: 50, C6: 4711 } };
}

/** A traverse read with a Pitot tube, one point reversed, at a mile of elevation. */
export function pitotTraverse(): Entries {
  return ductTraverse((velocity) => Math.round((velocity / 4005) ** 2 * 10_000) / 10_000, {
    B8: "pressure",
    H27: -0.002,
  });
}

/** A traverse of a flat oval duct with the same readings. */
export function ovalTraverse(): Entries {
  return ductTraverse((velocity) => velocity, { B11: "yes", B9: "", G6: 11 });
}

/** The same job measured in SI: its velocities taken for m/s, a traverse in a duct of 450 mm. */
export function inSi(entries: Entries): Entries {
  const { Job, "Duct traverse": traverse } = entries;
  const job = { ...Job, ...jobEntries({ Job_Units: "si", Job_Elevation: 1609, Job_AirTemperature: 20 })["Job"] };
  if (traverse === undefined) return { ...entries, Job: job };
  return { ...entries, Job: job, "Duct traverse": { ...traverse, G5: 450, G6: 450, G7: 2 } };
}
