import type { Note } from "../notes-sheet.js";
import type { BalanceBlock } from "../template-options.js";

const STEPS: readonly Note[] = [
  ["1. Job", "Enter the job, the units and the limits on the sheet Job."],
  ["2. Systems", "One row per fan or unit, with its supply airflow as specified. The fan's record may follow later."],
  [
    "3. Rooms",
    "One row per room with its loads. The system's supply is split by heating and by cooling load; the larger share governs. An airflow entered under Design set overrides both.",
  ],
  [
    "4. Outlets",
    "One row per outlet, also returns and exhausts: clear size inside the frame, published factor or none, design airflow. Then readings over equal parts of the grille. One reading is never enough.",
  ],
  [
    "5. Read the verdict",
    "low, within or high, by the limits of the job and from the unrounded percent. A cell that says no size or no design tells what is still missing; a room or system that says part measured has supply outlets without a reading. The column With ± says open where a limit lies within the ±. The decision rule of the job says which of the two columns counts: the airflow as measured (simple), or both ends of its ± (guarded).",
  ],
  [
    "Designs that add up",
    "Outlets against room says by how much the designs of a room's supply outlets are over or under the room's; Rooms against fan and Outlets against fan say the same of a system. Rooms that take the larger of two shares may come to more than the fan moves.",
  ],
  [
    "6. Actual and standard air",
    "Airflows are actual air, as it is at the outlet. With a temperature on the sheet Job, Standard airflow is the same mass at 0.075 lb/ft³. A thermal meter shows standard velocity unless it corrects itself. Set it to actual velocity. Or start the workbook with the block thermal, which corrects by the density of the job's air.",
  ],
  [
    "7. Re-test",
    "On the sheet Re-test a witness names a seed, which draws a tenth of the measured outlets. Copy the drawn outlets and their airflows beside them as values: readings stay with those tags, whatever is sorted or drawn later. Read them again before the witness, print the sheet and have it signed. Where one differs, recalculate, calibrate the meter and test the whole system again (UFGS-15951N, 3.2.4).",
  ],
  [
    "8. Supply against return",
    "The sheet Systems subtracts return and outside air from the supply, once all that are listed are measured. The rest leaks, or a factor is wrong: supply and return grilles need different factors.",
  ],
];

const SOURCES: readonly Note[] = [
  [
    "What a report holds",
    "Per outlet its place, area and system, make and type, size and factor, design and actual velocity and airflow; per fan its airflows, static pressures, speed and motor: as a county public-works specification (§15990, Balance requirements) asks.",
  ],
  [
    "Percent of a total",
    "Always the sum measured over the sum of design of the same outlets, never an average of percents.",
  ],
  ["Share by load", "Room airflow = system airflow × room load / sum of loads of the system. Common practice."],
];

/** How to fill each block, and where its rules are from. */
const OF_BLOCKS: Readonly<Record<BalanceBlock, readonly [steps: readonly Note[], sources: readonly Note[]]>> = {
  shares: [
    [
      [
        "Split of a room",
        "Under Split on the sheet Rooms choose evenly, by area or by shares; under Share type any numbers, whose ratio counts. An airflow under Design set comes first, and the other supply outlets share the rest. While one of them lacks its size or its share, none gets a design.",
      ],
    ],
    [],
  ],
  seasons: [
    [
      [
        "Design by",
        "Enter the system's airflow when it heats and when it cools. Under Design by choose what gives a room its design; empty takes the larger share by load. The others stay beside it, and Design from says which one counts: missing where the chosen one has no figures.",
      ],
    ],
    [
      [
        "By temperature",
        "Load / (60 × density × 0.24 × ΔT), the larger of heating and cooling. Derived. Density of the sheet Job, else standard air.",
      ],
      [
        "By tons",
        "Capacity × airflow per ton, 400 cfm where none is given (10 CFR 430 Subpart B App. M: a rule for tests, no target), shared by cooling load.",
      ],
      [
        "By ventilation",
        "People × air per person + floor area × air per area, with the rates that your code asks. The form is that of ASHRAE 62.1, seen quoted by others and not in the standard itself.",
      ],
    ],
  ],
  areas: [
    [
      [
        "Published area",
        "Where a manufacturer publishes an area for this size and way of measuring, enter it. Choose under Area is: effective or free. It comes before the factor, and the airflow is average velocity × that area. Area from says what counts.",
      ],
    ],
    [],
  ],
  instruments: [
    [
      [
        "Instruments",
        "One row per meter. Calibration says valid or expired on the day measured, or today where the sheet Job has no day.",
      ],
    ],
    [],
  ],
  thermal: [
    [
      [
        "Thermal meter",
        "Enter readings as the meter shows them, in standard velocity. Enter the air temperature on the sheet Job, and elevation or barometer. Velocity factor is 0.075 lb/ft³ over the density of the air, and every airflow is multiplied by it. Design velocity is what the meter has to show. These sheets are not for a vane, nor for a meter that corrects itself.",
      ],
    ],
    [
      [
        "Velocity factor",
        "Actual velocity = standard velocity × 0.075 / density: equal mass flow, derived. Which meter shows what is common practice.",
      ],
    ],
  ],
  report: [
    [
      [
        "Report and remarks",
        "Report is the front page: fill in who took part, print it first, and sign it. Remarks holds deficiencies, each with its proposed correction.",
      ],
    ],
    [
      [
        "Front page and remarks",
        "Contents, summary, the air of the day, deficiencies with proposed correction, and a preliminary report before the final one: as UFGS-15951N and UFGS-15950N ask, in our words. Instruments with serial number and calibration: common practice.",
      ],
    ],
  ],
  visits: [
    [
      [
        "As found and as left",
        "Readings before anything is changed go to B1 and on; the readings R1 and on are as left. Note damper, day, person and meter of each. The pane moves readings to the columns as found when a damper is set.",
      ],
    ],
    [],
  ],
};

/** How to fill the balance with its blocks, and the sources. */
export function roomBalanceNotes(blocks: readonly BalanceBlock[]): readonly [readonly Note[], readonly Note[]] {
  const more = blocks.map((block) => OF_BLOCKS[block]);
  return [
    [...STEPS, ...more.flatMap(([steps]) => steps)],
    [...SOURCES, ...more.flatMap(([, sources]) => sources)],
  ];
}
