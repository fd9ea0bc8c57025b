import type { ChartPlan } from "../template/sheet-plan.js";
import { PALETTE } from "../template/style.js";
import { escapedXml } from "./xml-text.js";

const LINE_COLORS = [PALETTE.limitLow, PALETTE.limitHigh] as const;

/** Adds the lines of a plan to a chart of bars, on the same axes. */
export function chartWithLines(barChart: string, plan: ChartPlan): string {
  if (plan.lines.length === 0) return barChart;
  const axes = [...barChart.matchAll(/<c:barChart>.*?<\/c:barChart>/gs)].flatMap(
    ([bars]) => bars.match(/<c:axId val="[0-9]+"\/>/g) ?? [],
  );
  const series = plan.lines.map(({ name, values }, index) => {
    const order = plan.bars.length + index;
    const color = LINE_COLORS[index % LINE_COLORS.length];
    return [
      `<c:ser><c:idx val="${order}"/><c:order val="${order}"/><c:tx><c:v>${escapedXml(name)}</c:v></c:tx>`,
      `<c:spPr><a:ln w="22225" cap="rnd"><a:solidFill><a:srgbClr val="${color}"/></a:solidFill><a:prstDash val="dash"/><a:round/></a:ln></c:spPr>`,
      '<c:marker><c:symbol val="none"/></c:marker>',
      `<c:cat><c:strRef><c:f>${escapedXml(plan.categories)}</c:f></c:strRef></c:cat>`,
      `<c:val><c:numRef><c:f>${escapedXml(values)}</c:f></c:numRef></c:val><c:smooth val="0"/></c:ser>`,
    ].join("");
  });
  const lines = `<c:lineChart><c:grouping val="standard"/><c:varyColors val="0"/>${series.join("")}<c:marker val="1"/>${axes.join("")}</c:lineChart>`;
  const end = "</c:barChart>";
  if (!barChart.includes(end) || axes.length !== 2)
    throw new Error("The writer no longer writes a chart of bars on two axes.");
  return barChart.replace(end, () => end + lines);
}
