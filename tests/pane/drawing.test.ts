import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { depthLabels } from "../../src/pane/measure/drawing/depth-labels.js";
import { pointCells } from "../../src/pane/measure/drawing/point-cells.js";
import { pointRadius } from "../../src/pane/measure/drawing/point-radius.js";
import { scaledSection } from "../../src/pane/measure/drawing/scaled-section.js";
import { velocityScale } from "../../src/pane/measure/drawing/velocity-scale.js";
import { EMPTY_MEASUREMENT } from "../../src/pane/measure/measure-draft.js";
import { type PointPlan, understoodPlan } from "../../src/pane/measure/understood-plan.js";

const sizes = fc.record({
  width: fc.double({ min: 2, max: 100, noNaN: true }),
  height: fc.double({ min: 2, max: 100, noNaN: true }),
});

function planOf(width: number, height: number | null): PointPlan {
  const size =
    height === null ? { shape: "round" as const, diameter: width } : { shape: "rectangular" as const, width, height };
  const plan = understoodPlan({ ...EMPTY_MEASUREMENT, shape: size.shape }, size, 0, "ip");
  if ("error" in plan) throw new Error(plan.error);
  return plan.points;
}

function ovalOf(major: number, minor: number, lines: string): PointPlan {
  const draft = { ...EMPTY_MEASUREMENT, shape: "flat oval" as const, ductLines: lines };
  const plan = understoodPlan(draft, { shape: "flat oval", major, minor }, 0, "ip");
  if ("error" in plan) throw new Error(plan.error);
  return plan.points;
}

describe("the drawn flat oval", () => {
  it("has its points inside, labels its holes, and divides into slices that meet", () => {
    const points = ovalOf(24, 12, "4");
    const drawn = scaledSection(points.section, 1);
    expect(drawn.width / drawn.height).toBeCloseTo(2, 9);
    const radius = drawn.height / 2;
    for (const { x, y } of points.plan.points.map(drawn.placeOf)) {
      const beyond = Math.max(0, drawn.left + radius - x, x - (drawn.left + drawn.width - radius));
      expect(Math.hypot(beyond, y - drawn.top - radius)).toBeLessThan(radius);
    }
    expect(depthLabels(points, drawn, "ip", 1).map(({ text }) => text)).toEqual(["3 7/8", "9 3/8", "14 5/8", "20 1/8"]);
    const cells = pointCells(points, drawn, 1);
    expect(cells).toHaveLength(points.keys.length);
    // The lower edge of a slice is the upper edge of the next, point for point.
    const corners = (path: string) => path.slice(1, -1).split("L");
    const [first, second] = [corners(cells[0]?.path ?? ""), corners(cells[1]?.path ?? "")];
    expect(second.slice(0, 13)).toEqual(first.slice(13).reverse());
    expect(cells.map(({ path }) => path).join()).not.toContain("NaN");
  });
});

describe("the drawn cross-section", () => {
  it("is to scale and stays inside the drawing, whatever the duct", () => {
    fc.assert(
      fc.property(sizes, ({ width, height }) => {
        const points = planOf(width, height);
        const drawn = scaledSection(points.section, 1);
        expect(drawn.width / drawn.height).toBeCloseTo(width / height, 6);
        expect(drawn.left).toBeGreaterThan(0);
        expect(drawn.left + drawn.width).toBeLessThan(drawn.drawingWidth);
        for (const point of points.plan.points) {
          const { x, y } = drawn.placeOf(point);
          expect(x).toBeGreaterThan(drawn.left);
          expect(x).toBeLessThan(drawn.left + drawn.width);
          expect(y).toBeGreaterThan(drawn.top);
          expect(y).toBeLessThan(drawn.bottom);
        }
      }),
    );
  });

  it("draws no two points over each other", () => {
    const points = planOf(14, null);
    const drawn = scaledSection(points.section, 1);
    const places = points.plan.points.map(drawn.placeOf);
    const radius = pointRadius(places, 1);
    places.forEach((place, index) => {
      for (const other of places.slice(index + 1)) {
        expect(Math.hypot(place.x - other.x, place.y - other.y)).toBeGreaterThan(2 * radius);
      }
    });
  });

  it("labels each depth of the first line as a tape is read, near ones on another level", () => {
    const points = planOf(14, null);
    const labels = depthLabels(points, scaledSection(points.section, 1), "ip", 1);
    // ISO 5802:2001, Table 3, 8 points, times 14 in, to 1/8 in.
    expect(labels.map(({ text }) => text)).toEqual([
      "1/4",
      "1 5/8",
      "2 5/8",
      "4 7/8",
      "9 1/8",
      "11 3/8",
      "12 3/8",
      "13 3/4",
    ]);
    const metric = depthLabels(points, scaledSection(points.section, 1), "si", 1);
    expect(metric[0]?.text).toBe("7");
  });

  it("gives text of twice the size twice the room: larger points, and labels only where they do not touch", () => {
    const points = planOf(24, 12);
    const drawn = scaledSection(points.section, 2);
    const radius = pointRadius(points.plan.points.map(drawn.placeOf), 2);
    expect(radius).toBeGreaterThan(pointRadius(points.plan.points.map(scaledSection(points.section, 1).placeOf), 1));
    for (const level of [0, 1, 2]) {
      const xs = depthLabels(points, drawn, "ip", 2).flatMap((label) => (label.level === level ? [label.x] : []));
      for (const [index, x] of xs.entries()) if (index > 0) expect(x - (xs[index - 1] ?? 0)).toBeGreaterThanOrEqual(22);
    }
  });

  it("divides a round section into parts that all have the same area", () => {
    const cells = pointCells(planOf(12, null), scaledSection(planOf(12, null).section, 1), 1);
    const areas = cells.map(({ path }) => {
      const radii = [...path.matchAll(/A([\d.]+) /g)].map((match) => Number(match[1]));
      return (radii[0] ?? 0) ** 2 - (radii[1] ?? 0) ** 2;
    });
    for (const area of areas) expect(area / (areas[0] ?? 1)).toBeCloseTo(1, 2);
  });
});

describe("the colours of the profile", () => {
  it("run from the lowest to the highest reading in equal steps", () => {
    const { steps, stepOf } = velocityScale([100, null, 600, 350]);
    expect(steps).toHaveLength(5);
    expect(steps[0]).toEqual({ from: 100, to: 200 });
    expect([100, 199, 200, 599, 600].map(stepOf)).toEqual([0, 0, 1, 4, 4]);
  });

  it("set apart what was not taken and what runs backwards", () => {
    const { stepOf, hasReversed } = velocityScale([100, -20, null]);
    expect(hasReversed).toBe(true);
    expect(stepOf(-20)).toBe(-1);
    expect(stepOf(null)).toBeNull();
  });

  it("are one where all readings agree, and none where nothing is taken", () => {
    expect(velocityScale([400, 400]).steps).toEqual([{ from: 400, to: 400 }]);
    expect(velocityScale([400, 400]).stepOf(400)).toBe(0);
    expect(velocityScale([null, null]).steps).toEqual([]);
  });
});
