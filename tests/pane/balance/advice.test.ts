import { describe, expect, it } from "vitest";
import { FRESH_READINGS, type ReadingOrder, type UnitSystemName } from "../../../src/core/index.js";
import {
  type BalanceDraft,
  balanceReducer,
  EMPTY_BALANCE,
  rememberedKey,
} from "../../../src/pane/balance/balance-draft.js";
import { groupLabels } from "../../../src/pane/balance/group-labels.js";
import { meterVelocity } from "../../../src/pane/balance/meter-velocity.js";
import { isAfterSetting, nextStep } from "../../../src/pane/balance/next-step.js";
import { airflowText, percentText, velocityText } from "../../../src/pane/balance/quantity-text.js";
import { readTypedReadings } from "../../../src/pane/balance/read-typed-readings.js";
import { readingOrder } from "../../../src/pane/balance/reading-order.js";
import { type SystemAdvice, systemAdvice } from "../../../src/pane/balance/system-advice.js";
import {
  ageEdits,
  type BalanceGroup,
  balanceGroups,
  limitsForKind,
  type OutletRow,
  UNSTATED_JOB,
} from "../../../src/workbook/index.js";

const LIMITS = { minusPercent: 5, plusPercent: 10, isAssumed: false };

function outlet(
  name: string,
  design: number | null,
  measured: number | null,
  more: Partial<OutletRow> = {},
): OutletRow {
  const cell = { sheet: "Outlets", range: "A1" };
  return {
    id: `Outlets!${name}`,
    name,
    sheet: "Outlets",
    row: 1,
    system: "AHU-1",
    branch: "",
    room: "",
    kind: "supply",
    design,
    measured,
    before: null,
    after: null,
    freeArea: 0.25,
    factor: "given",
    expandedPercent: null,
    entry: "velocities",
    entryCells: [cell],
    entryScale: 1,
    isOld: false,
    ageCell: null,
    asFoundCells: [],
    entered: [null],
    cell,
    ...more,
  };
}

function groupOf(...outlets: readonly OutletRow[]): BalanceGroup {
  const [group] = balanceGroups(outlets);
  if (group === undefined) throw new Error("There is no group.");
  return group;
}

interface Known {
  readonly throttled?: readonly string[];
  readonly fanMost?: number;
  readonly units?: UnitSystemName;
  readonly order?: ReadingOrder;
}

function viewOf(
  group: BalanceGroup,
  { throttled = [], fanMost = Number.POSITIVE_INFINITY, units = "ip", order = FRESH_READINGS }: Known = {},
): SystemAdvice {
  const view = systemAdvice(group, {
    isThrottled: ({ name }) => throttled.includes(name),
    isBranchThrottled: () => false,
    fanMost,
    limits: LIMITS,
    order,
    job: { ...UNSTATED_JOB, units },
  });
  if ("problem" in view) throw new Error(view.problem);
  return view.value;
}

/** The two outlets of the docstring of `balanceAdvice`: Hall is to come down to the ratio of Bath. */
const TWO = groupOf(outlet("Hall", 100, 140), outlet("Bath", 120, 96));

describe("the next step", () => {
  it("names the outlet, the airflow and the velocity to look for on the meter", () => {
    // 88.49 cfm, as the core foresees it, through 0.25 ft² of free area: 354 fpm.
    const step = nextStep(TWO, viewOf(TWO), EMPTY_BALANCE, "ip");
    expect(step).toMatchObject({ title: "Set Hall to 88 cfm", reason: "advised" });
    expect(step.target).toBeCloseTo(88.49, 2);
    expect(step.look).toBeCloseTo(354, 0);
    expect(step.read?.name).toBe("Hall");
  });

  it.each([
    ["ip", "cfm"],
    ["si", "L/s"],
  ] as const)("says what to do once, with the unit of the job, and then why: %s", (units, unit) => {
    const set = nextStep(TWO, viewOf(TWO, { units }), EMPTY_BALANCE, units);
    expect(set.title).toBe(`Set Hall to 88 ${unit}`);
    expect(set.words).toMatch(/^88 % of design, to match key outlet Bath; leave Bath fully open\. Then read /);
    const even = groupOf(outlet("Hall", 100, 80), outlet("Bath", 120, 96));
    const fan = nextStep(even, viewOf(even, { units }), EMPTY_BALANCE, units);
    expect(fan.title).toBe(`Set the fan for a total of 220 ${unit}`);
    expect(fan.words).toMatch(
      new RegExp(`^All outlets share in proportion at 80 % of design\\. Bath then reads 120 ${unit}\\.`),
    );
  });

  it("has no velocity to look for where the size of the outlet is not stated", () => {
    const group = groupOf(outlet("Hall", 100, 140, { freeArea: null }), outlet("Bath", 120, 96));
    expect(nextStep(group, viewOf(group), EMPTY_BALANCE, "ip")).toMatchObject({
      title: "Set Hall to 88 cfm",
      look: null,
    });
  });

  it("reads what was not measured first, with the velocity that the design asks for", () => {
    const group = groupOf(outlet("Hall", 100, null), outlet("Bath", 120, 96));
    const step = nextStep(group, viewOf(group), EMPTY_BALANCE, "ip");
    expect(step).toMatchObject({ title: "Read Hall", target: null, look: 400 });
    // The velocity to look for is of one outlet: the title names it.
    const blank = groupOf(outlet("Hall", 100, null), outlet("Bath", 120, null), outlet("Den", 80, null));
    expect(nextStep(blank, viewOf(blank), EMPTY_BALANCE, "ip")).toMatchObject({
      title: "Read Hall, then 2 more",
      read: { name: "Hall" },
      look: 400,
    });
  });

  it("asks for the outlets that a move may have shifted, and sets nothing meanwhile", () => {
    const round = { Hall: 140, Bath: 96 };
    const order = { ...FRESH_READINGS, old: ["Bath"], set: ["Hall"], round };
    const moved = groupOf(outlet("Hall", 100, 88), outlet("Bath", 120, 96));
    expect(nextStep(moved, viewOf(moved, { throttled: ["Hall"], order }), EMPTY_BALANCE, "ip")).toMatchObject({
      title: "Read Bath again",
      reason: "again",
      target: null,
    });
  });

  it("leaves the person the choice of the outlet, and then sets nothing", () => {
    const draft = balanceReducer(EMPTY_BALANCE, { type: "outlet chosen", id: "Outlets!Bath" });
    expect(nextStep(TWO, viewOf(TWO), draft, "ip")).toMatchObject({
      title: "Read Bath",
      reason: "chosen",
      target: null,
    });
  });

  it("takes the readings up to now for those as found once something was set, and not before", () => {
    const isAfter = (draft: BalanceDraft, group = TWO) => isAfterSetting(nextStep(group, viewOf(group), draft, "ip"));
    expect(isAfter(EMPTY_BALANCE), "Hall is set").toBe(true);
    expect(isAfter({ ...EMPTY_BALANCE, chosen: "Outlets!Bath" }), "Bath is chosen").toBe(false);
    expect(isAfter(EMPTY_BALANCE, groupOf(outlet("Hall", 100, null))), "Hall is read first").toBe(false);
  });

  it("goes on with the advice where an outlet that was chosen is gone from the sheet", () => {
    const draft: BalanceDraft = { ...EMPTY_BALANCE, chosen: "Outlets!Attic" };
    expect(nextStep(TWO, viewOf(TWO), draft, "ip").reason).toBe("advised");
  });

  it("asks for the fan once all share in proportion, and for every reading after it", () => {
    const group = groupOf(outlet("Hall", 100, 80), outlet("Bath", 120, 96));
    const { title, read, confirm } = nextStep(group, viewOf(group), EMPTY_BALANCE, "ip");
    expect([title, read]).toEqual(["Set the fan for a total of 220 cfm", null]);
    expect(confirm).toEqual({ label: "The fan is set", branch: null });
  });

  it("asks for a branch damper where branches differ, and remembers which", () => {
    const north = { branch: "North" };
    const group = groupOf(
      outlet("1", 100, 120, north),
      outlet("2", 100, 120, north),
      outlet("3", 100, 90, { branch: "South" }),
    );
    const { title, confirm } = nextStep(group, viewOf(group), EMPTY_BALANCE, "ip");
    expect(title).toMatch(/^Set branch North to a total of \d+ cfm$/);
    expect(confirm?.branch).toBe("North");
  });

  it("is none where every outlet is within its limits", () => {
    const group = groupOf(outlet("Hall", 100, 100), outlet("Bath", 120, 121));
    expect(nextStep(group, viewOf(group), EMPTY_BALANCE, "ip")).toMatchObject({
      title: "Balanced",
      read: null,
      confirm: null,
    });
  });
});

describe("a system as it stands", () => {
  it("lists the outlets in the order of work, with a word for each and the key marked", () => {
    const { rated, ratio } = viewOf(TWO);
    expect(rated.map(({ row, verdict, isKey }) => [row.name, verdict, isKey])).toEqual([
      ["Bath", "low", true],
      ["Hall", "high", false],
    ]);
    expect(ratio).toBeCloseTo(236 / 220, 9);
  });

  it("says which low outlet no damper can raise, and why", () => {
    const starved = groupOf(outlet("Hall", 100, 140), outlet("Bath", 120, 36));
    expect(viewOf(starved).advice.low.map(({ outlet: { name }, reason }) => [name, reason])).toEqual([
      ["Bath", "duct"],
    ]);
    const weak = groupOf(outlet("Hall", 100, 80), outlet("Bath", 120, 96));
    expect(viewOf(weak).advice.low.map(({ reason }) => reason)).toEqual(["fan", "fan"]);
    expect(viewOf(weak, { fanMost: 200 }).advice.low.map(({ reason }) => reason)).toEqual(["design", "design"]);
  });

  it("has no advice without a design airflow, or with limits that allow no air, and says so", () => {
    const fanMost = Number.POSITIVE_INFINITY;
    const state = {
      isThrottled: () => false,
      isBranchThrottled: () => false,
      fanMost,
      job: UNSTATED_JOB,
      order: FRESH_READINGS,
    };
    expect(systemAdvice(groupOf(outlet("Hall", null, 80)), { ...state, limits: LIMITS })).toHaveProperty("problem");
    expect(systemAdvice(TWO, { ...state, limits: { ...LIMITS, minusPercent: 100 } })).toHaveProperty("problem");
    expect(systemAdvice(TWO, { ...state, limits: null })).toMatchObject({
      problem: expect.stringContaining("only one of its two limits"),
    });
  });

  it("says beside the verdict as measured whether a limit lies within the ±", () => {
    // ± 5 % of 140 and of 96 cfm; the limits are 95 to 110 cfm and 114 to 132 cfm.
    const sure = groupOf(
      { ...outlet("Hall", 100, 140), expandedPercent: 5 },
      { ...outlet("Bath", 120, 96), expandedPercent: 5 },
    );
    expect(viewOf(sure).rated.map(({ verdict, isOpen }) => [verdict, isOpen])).toEqual([
      ["low", false],
      ["high", false],
    ]);
    const near = groupOf(
      { ...outlet("Hall", 100, 108), expandedPercent: 5 },
      { ...outlet("Bath", 120, 96), expandedPercent: 30 },
    );
    expect(viewOf(near).rated.map(({ verdict, isOpen }) => [verdict, isOpen])).toEqual([
      ["low", true],
      ["within", true],
    ]);
  });
});

describe("what is remembered of balancing", () => {
  const key = rememberedKey(outlet("Hall", 100, 140), "Hall", "House 12");

  it("is the airflow as found, from before the first setting alone", () => {
    const none = balanceReducer(EMPTY_BALANCE, { type: "found", key, airflow: null });
    expect(none.asFound, "an outlet that was never measured").toEqual({});
    const first = balanceReducer(none, { type: "found", key, airflow: 140 });
    const second = balanceReducer(first, { type: "found", key, airflow: 110 });
    expect(second.asFound).toEqual({ [key]: 140 });
  });

  it("is that every reading of the system is older than a change, but that of the outlet that was set", () => {
    const before = { [key]: 140, other: 96, unread: null };
    const set = balanceReducer(EMPTY_BALANCE, { type: "adjusted", key, group: "g", before });
    expect(set).toMatchObject({ throttled: [key], set: [key], old: { other: 96 }, changes: { g: 1 } });
    const read = balanceReducer(set, { type: "read", key: "other", count: 1 });
    expect(read.old).toEqual({});
  });

  it("is the round in which all were read with no change in between, and the fan leaves its proportions", () => {
    const before = { [key]: 140, other: 96 };
    const set = balanceReducer(EMPTY_BALANCE, { type: "adjusted", key, group: "g", before });
    expect(set.round).toEqual(before);
    const fan = balanceReducer(set, { type: "fan set", group: "g", before: { [key]: 88, other: 96 } });
    expect(fan.round, "other was not read since Hall was set").toEqual(before);
    expect(fan).toMatchObject({ set: [key], old: { [key]: 88, other: 96 }, changes: { g: 2 } });
  });

  it("counts an outlet as read again once the sheet shows another airflow", () => {
    const group = groupOf(outlet("Hall", 100, 140), outlet("Bath", 120, 100));
    const draft: BalanceDraft = { ...EMPTY_BALANCE, old: { Hall: 140, Bath: 96 } };
    expect(readingOrder(group, draft, ({ name }) => name, UNSTATED_JOB).old).toEqual(["Hall"]);
  });

  it("is what the sheet says of a reading, where it has a column for it", () => {
    const ageCell = { sheet: "Outlets", range: "Q9" };
    const hall = { ...outlet("Hall", 100, 140), ageCell, isOld: true };
    const bath = { ...outlet("Bath", 120, 96), ageCell, isOld: false };
    const order = readingOrder(groupOf(hall, bath), EMPTY_BALANCE, ({ name }) => name, UNSTATED_JOB);
    expect(order.old).toEqual(["Hall"]);
    expect(ageEdits([hall, bath], ({ name }) => name === "Bath")).toEqual([
      { address: ageCell, cells: [[null]] },
      { address: ageCell, cells: [["old"]] },
    ]);
    expect(ageEdits([outlet("Loft", 100, 90)], () => true)).toEqual([]);
  });

  it("is another for another job", () => {
    expect(rememberedKey(outlet("Hall", 100, 140), "Hall", "House 13")).not.toBe(key);
  });

  it("is corrected by the person", () => {
    const throttled = balanceReducer(EMPTY_BALANCE, { type: "damper", key, isThrottled: true });
    expect(throttled.throttled).toEqual([key]);
    expect(balanceReducer(throttled, { type: "damper", key, isThrottled: false }).throttled).toEqual([]);
  });
});

describe("typed readings", () => {
  it.each([
    ["412", [412]],
    [" 412  398 405 ", [412, 398, 405]],
    ["0", [0]],
    ["-12.5; 30", [-12.5, 30]],
  ])("read %j", (text, values) => {
    expect(readTypedReadings(text, 6)).toEqual({ values });
  });

  it.each([
    ["", /Enter what the meter shows/],
    ["410 fast", /“fast”/],
    ["1,250", /point/],
    ["1 2 3", /room for 2/],
    ["30000", /20000/],
  ])("refuse %j with a reason", (text, reason) => {
    expect(readTypedReadings(text, 2)).toEqual({ error: expect.stringMatching(reason) });
  });
});

describe("numbers for a person", () => {
  it("carry the unit of the job", () => {
    expect([airflowText(812.4, "ip"), airflowText(8.04, "si"), velocityText(1.587, "si"), percentText(0.949)]).toEqual([
      "812 cfm",
      "8.0 L/s",
      "1.59 m/s",
      "95 %",
    ]);
  });

  it("give the velocity of an airflow in SI as in inch-pound", () => {
    // 40 L/s through 0.02 m² is 2 m/s; 80 cfm through 0.25 ft² is 320 fpm.
    expect([meterVelocity(40, 0.02, "si"), meterVelocity(80, 0.25, "ip"), meterVelocity(80, 0, "ip")]).toEqual([
      2,
      320,
      null,
    ]);
  });
});

describe("the limits", () => {
  it("are those of the job, outside air has its own, and without any 10 % is assumed", () => {
    const job = { ...UNSTATED_JOB, minusPercent: 5, plusPercent: 20, outsideMinusPercent: 0, outsidePlusPercent: 15 };
    expect(limitsForKind("supply", job)).toEqual({ minusPercent: 5, plusPercent: 20, isAssumed: false });
    expect(limitsForKind("outside air", job)).toEqual({ minusPercent: 0, plusPercent: 15, isAssumed: false });
    expect(limitsForKind("supply", UNSTATED_JOB)).toEqual({ minusPercent: 10, plusPercent: 10, isAssumed: true });
  });
});

describe("the choice of what to balance", () => {
  it("names system and kind, and the sheet only where there are several", () => {
    const one = balanceGroups([outlet("1", 1, 1), outlet("2", 1, 1, { kind: "return" })]);
    expect(groupLabels(one).map(({ label }) => label)).toEqual([
      "AHU-1, supply (1 outlet)",
      "AHU-1, return (1 outlet)",
    ]);
    const two = balanceGroups([outlet("1", 1, 1), outlet("2", 1, 1, { sheet: "Job summary", system: "", kind: "" })]);
    expect(groupLabels(two).map(({ label }) => label)).toEqual([
      "AHU-1, supply on Outlets (1 outlet)",
      "All outlets on Job summary (1 outlet)",
    ]);
  });
});
