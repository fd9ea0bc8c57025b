import { percentOfDesign } from "../design/percent-of-design.js";
import { airflow } from "../flow/airflow.js";
import type { AirflowBudget } from "../uncertainty/airflow-budget.js";
import type { Cfm, Fpm, SquareFoot } from "../units/quantity.js";
import type { WorkingInput, WorkingStep, Workings } from "./workings.js";

/** What the airflow is held against; null leaves its steps out. */
export interface AirflowContext {
  readonly designCfm: Cfm | null;
  readonly budget: AirflowBudget | null;
}

/** The steps from velocity and area to the airflow, its percent of design and its ±. */
export function airflowSteps(
  velocityFpm: Fpm,
  area: { readonly name: string; readonly symbol: string; readonly areaFt2: SquareFoot },
  context: AirflowContext,
): Workings {
  const flowCfm = airflow(velocityFpm, area.areaFt2);
  const step: WorkingStep = {
    title: "Airflow",
    symbol: "Q",
    expression: `V * ${area.symbol}`,
    inputs: [
      { name: "Average velocity", symbol: "V", value: velocityFpm, unit: "fpm" },
      { name: area.name, symbol: area.symbol, value: area.areaFt2, unit: "ft2" },
    ],
    result: flowCfm,
    unit: "cfm",
    source: "Continuity; NAVFAC MO-114 vol. 3, ch. 2, question 2-4",
    assumed: null,
  };
  return [
    step,
    ...(context.designCfm === null ? [] : [percentStep(flowCfm, context.designCfm)]),
    ...(context.budget === null ? [] : uncertaintySteps(flowCfm, context.budget)),
  ];
}

function percentStep(flowCfm: Cfm, designCfm: Cfm): WorkingStep {
  return {
    title: "Percent of design",
    symbol: "P",
    expression: "100 * Q / Qd",
    inputs: [airflowInput(flowCfm), { name: "Design airflow", symbol: "Qd", value: designCfm, unit: "cfm" }],
    result: percentOfDesign(flowCfm, designCfm),
    unit: "%",
    source: "Common practice in balance specifications",
    assumed: null,
  };
}

function uncertaintySteps(flowCfm: Cfm, budget: AirflowBudget): Workings {
  const parts = budget.rows.map(
    (row): WorkingInput => ({
      name: row.name,
      symbol: `u${row.name.replaceAll(" ", "")}`,
      value: row.contributionPercent,
      unit: "%",
    }),
  );
  const squares = parts.map(({ symbol }) => `${symbol}^2`).join(" + ");
  return [
    {
      title: "± (95 %)",
      symbol: "U",
      expression: `k * sqrt(${squares})`,
      inputs: [...parts, { name: "Factor for 95 %", symbol: "k", value: budget.coverageFactor, unit: "ratio" }],
      result: budget.expandedPercent,
      unit: "%",
      source: "JCGM 100:2008 (GUM), 5.1.6 and 6.2",
      assumed: budget.assumed.length > 0 ? `Default for ${budget.assumed.join(", ").toLowerCase()}` : null,
    },
    {
      title: "± of the airflow",
      symbol: "Uq",
      expression: "abs(Q) * U / 100",
      inputs: [airflowInput(flowCfm), { name: "Uncertainty", symbol: "U", value: budget.expandedPercent, unit: "%" }],
      result: (Math.abs(flowCfm) * budget.expandedPercent) / 100,
      unit: "cfm",
      source: "JCGM 100:2008 (GUM), 6.2",
      assumed: null,
    },
  ];
}

function airflowInput(flowCfm: Cfm): WorkingInput {
  return { name: "Airflow", symbol: "Q", value: flowCfm, unit: "cfm" };
}
