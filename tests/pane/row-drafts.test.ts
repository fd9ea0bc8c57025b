import { describe, expect, it } from "vitest";
import type { MeasureAction } from "../../src/pane/measure/measure-reducer.js";
import {
  type DraftPlace,
  draftOf,
  type MeasureDrafts,
  NO_MEASUREMENTS,
  rowDraftsReducer,
  waitingDrafts,
} from "../../src/pane/measure/row-drafts.js";

function row(tag: string, number: number): DraftPlace {
  return {
    id: `Outlets!${tag}`,
    label: tag,
    cell: { sheet: "Outlets", range: `A${number}` },
    measured: "face",
    opening: null,
  };
}

const S1 = row("S1", 9);
const S2 = row("S2", 10);
const KEYS = ["1.1", "1.2", "1.3", "1.4", "1.5", "1.6"];

function after(drafts: MeasureDrafts, place: DraftPlace, ...actions: readonly MeasureAction[]): MeasureDrafts {
  return actions.reduce((kept, action) => rowDraftsReducer(kept, { type: "measure", place, action }), drafts);
}

function typed(place: DraftPlace, readings: readonly string[], from = NO_MEASUREMENTS): MeasureDrafts {
  return readings.reduce(
    (drafts, text, index) =>
      after(drafts, place, { type: "typed", text }, { type: "go", keys: KEYS, place: index + 1 }),
    from,
  );
}

const FIVE = ["310", "305", "300", "298", "0"];

describe("what is typed for a row", () => {
  it("stays with it: another row starts empty, and the first has it still", () => {
    const drafts = typed(S1, FIVE);
    expect(draftOf(drafts, S2)).toMatchObject({ faceReadings: {}, ductReadings: {}, typed: "", sweeps: [] });
    expect(draftOf(drafts, null)).toEqual(NO_MEASUREMENTS.free);
    expect(draftOf(drafts, S1).faceReadings).toMatchObject({ "1.1": "310", "1.5": "0" });
    const both = typed(S2, ["150"], drafts);
    expect(draftOf(both, S1)).toEqual(draftOf(drafts, S1));
  });

  it("is said beside every other row until it is in the sheet", () => {
    const drafts = typed(S1, FIVE);
    const words = (kept: MeasureDrafts, place: DraftPlace) => waitingDrafts(kept, place).map((one) => one.words);
    expect(words(drafts, S2)).toEqual(["S1: 5 points not yet in the sheet."]);
    expect(words(drafts, null)).toEqual(["S1: 5 points not yet in the sheet."]);
    expect(words(drafts, S1)).toEqual([]);
    expect(words(after(drafts, S1, { type: "put" }), S2)).toEqual([]);
    const changed = after(drafts, S1, { type: "put" }, { type: "typed", text: "320" });
    expect(words(changed, S2)).toEqual(["S1: 6 points not yet in the sheet."]);
    const going = after(drafts, S1, { type: "put" }, { type: "go", keys: KEYS, place: 0 });
    expect(words(going, S2), "looking at a point changes nothing").toEqual([]);
  });

  it("counts sweeps, a single one, and one that still runs", () => {
    const sweeps = after(
      NO_MEASUREMENTS,
      S1,
      { type: "add sweep" },
      { type: "set sweep", index: 0, changes: { velocity: "400" } },
      { type: "start sweep", at: 1000 },
    );
    expect(waitingDrafts(sweeps, S2)).toMatchObject([
      { words: "S1: 1 sweep, a sweep still running not yet in the sheet." },
    ]);
    expect(waitingDrafts(typed(S1, ["310"]), S2)).toMatchObject([{ words: "S1: 1 point not yet in the sheet." }]);
  });

  it("goes to another row only when the person asks for it", () => {
    const free = typed(null, FIVE);
    expect(waitingDrafts(free, S1)).toMatchObject([{ id: null, words: "No row: 5 points not yet in the sheet." }]);
    const moved = rowDraftsReducer(free, { type: "use here", place: S1, from: null });
    expect(draftOf(moved, S1).ductReadings).toMatchObject({ "1.1": "310" });
    expect(draftOf(moved, null)).toEqual(NO_MEASUREMENTS.free);
    const again = rowDraftsReducer(moved, { type: "use here", place: S2, from: "Outlets!S1" });
    expect(draftOf(again, S2).ductReadings).toMatchObject({ "1.5": "0" });
    expect(draftOf(again, S1)).toMatchObject({ ductReadings: {}, kind: "face" });
    expect(rowDraftsReducer(again, { type: "use here", place: S2, from: "toString" })).toBe(again);
  });

  it("is let go once it is in the sheet and another row is measured", () => {
    const drafts = typed(S2, ["150"], after(typed(S1, FIVE), S1, { type: "put" }));
    expect(Object.keys(drafts.rows)).toEqual(["Outlets!S2"]);
  });

  it("starts where its outlet is measured", () => {
    expect(draftOf(NO_MEASUREMENTS, S1).kind).toBe("face");
    expect(S1 && draftOf(NO_MEASUREMENTS, { ...S1, measured: "duct" }).kind).toBe("duct");
  });
});
