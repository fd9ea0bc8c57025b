import type { Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { filesOn, type OpenPage, openTemplate } from "./files-on-page.js";
import { outletCell, person } from "./open-workbook.js";

/*
 * Entries by real keys: what is refused, what is skipped, where Tab and Enter go, what a paste and Delete may touch.
 */

let workbook: OpenPage;
let page: Page;

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const cell = () => page.locator("#cell").textContent();
const note = () => page.locator("#note");
const at = async () => (await cell())?.replace(/:.*/s, "");
const keys = async (...pressed: readonly string[]): Promise<void> => {
  for (const key of pressed) await page.keyboard.press(key);
};

/** Puts a text on the clipboard as another program does, and pastes it by the key. */
async function paste(text: string): Promise<void> {
  await page.evaluate((given) => navigator.clipboard.writeText(given), text);
  await page.keyboard.press("Control+V");
  await person(page).hasDrawn();
}

beforeAll(async () => {
  workbook = await openTemplate("room-balance.xlsx", "Outlets");
  page = workbook.page;
});

afterAll(() => workbook.close());

/** Another test must not begin in an editor that one left open. */
beforeEach(() => keys("Escape"));

describe("an entry", () => {
  it("that is refused stays in the editor with its reason beside the cell, and typing goes on", async () => {
    await person(page).goTo("J9");
    await page.keyboard.type("~350");
    await keys("Tab");
    await note().waitFor();
    expect(await note().textContent()).toMatch(/number/i);
    expect(await page.locator("dialog").count()).toBe(0);
    expect(await page.locator(".o-grid-composer .o-composer").textContent()).toBe("~350");
    await keys("Control+A");
    await page.keyboard.type("350");
    expect(await note().isVisible()).toBe(false);
    await keys("Tab");
    await page.keyboard.type("360");
    await keys("Tab");
    expect(await at()).toBe("L9");
    expect(await person(page).read("J9")).toBe("350");
    expect(await person(page).read("K9")).toBe("360");
  });

  it("of a size as it is written on a grille is taken as a number, or refused with what to type", async () => {
    await person(page).goTo("F9");
    await page.keyboard.type("12 1/2");
    await keys("Tab");
    expect(await person(page).read("F9")).toBe("12.5");
    await page.keyboard.type("14x6");
    await keys("Tab");
    await note().waitFor();
    expect(await note().textContent()).toContain("For 14x6 enter 14 as the width and 6 as the height");
    await keys("Escape");
    await person(page).goTo("F9");
    await keys("Delete");
  });

  it("that is refused is given up by Escape, and keeps Save from leaving it out without a word", async () => {
    await person(page).goTo("J9");
    await page.keyboard.type("draughty");
    await page.locator("#save").click();
    await page.locator(".notice.warning", { hasText: "Nothing was saved" }).waitFor();
    expect(await note().isVisible()).toBe(true);
    await keys("Escape");
    expect(await note().isVisible()).toBe(false);
    expect(await person(page).read("J9")).toBe("350");
  });

  it("is skipped in a blank cell by Enter, also once the editor is open", async () => {
    await person(page).goTo("M12");
    await keys("Enter");
    expect(await at()).toBe("M13");
    await keys("F2", "Backspace", "Enter");
    expect(await at()).toBe("M14");
    expect(await note().isVisible()).toBe(false);
    expect(await page.locator("dialog").count()).toBe(0);
  });

  it("after a run of Tabs goes on in the first column of the run", async () => {
    await person(page).goTo("J14");
    for (const reading of ["300", "310", "", "320"]) {
      await page.keyboard.type(reading);
      await keys("Tab");
    }
    await page.keyboard.type("330");
    await keys("Enter");
    expect(await at()).toBe("J15");
    await keys("Tab", "Enter");
    expect(await at()).toBe("J16");
    await keys("Enter");
    expect(await at()).toBe("J17");
  });

  it("begins in no locked cell, filled or empty, and says where to type instead", async () => {
    for (const address of [outletCell("Airflow", 9), "AC3"]) {
      await person(page).goTo(address);
      const before = await cell();
      await page.keyboard.type("5");
      await note().waitFor();
      expect(await note().textContent()).toContain(`${address} is`);
      await keys("Enter");
      expect(await person(page).read(address), address).toBe(before?.replace(`${address}: `, ""));
    }
    await person(page).goTo(outletCell("Airflow", 9));
    await keys("Delete");
    await note().waitFor();
    expect(await note().textContent()).toContain("is calculated and locked");
  });

  it("that was typed and not entered is still there when the page opens again", async () => {
    await person(page).goTo("J20");
    await page.keyboard.type("4711", { delay: 20 });
    await page.locator("#kept", { hasText: "kept in this browser" }).waitFor();
    await page.waitForTimeout(400);
    await page.reload();
    await person(page).isReady();
    await page.locator(".o-grid-composer .o-composer", { hasText: "4711" }).waitFor();
    expect(await at()).toBe("J20");
    await keys("Enter");
    expect(await person(page).read("J20")).toBe("4711");
  });
});

describe("a paste", () => {
  it("of a list from another program goes over the frozen edge, keeps the shading, and is undone at once", async () => {
    await person(page).goTo("A24");
    await paste('S-16\t\t"Hall, upper"\tsupply\r\nS-17\t\tAttic\tsupply\r\n');
    expect(await person(page).read("C24")).toBe("Hall, upper");
    expect(await person(page).read("A25")).toBe("S-17");
    await person(page).goTo("J26");
    await paste("12\t\t\t108");
    expect(await person(page).read("M26")).toBe("108");
    await keys("Control+Z", "Control+Z");
    expect(await person(page).read("A24")).toBe("empty");
    expect(await person(page).read("M26")).toBe("empty");
    await keys("Control+Y", "Control+Y");
    expect(await person(page).read("A25")).toBe("S-17");
  });

  it("of a list with its looks, as spreadsheet programs copy one, takes the contents alone, and is undone at once", async () => {
    const rows = [
      ["S-18", "AHU-2", "Loft", "exhaust", "", "12", "6", "0.75", "110"],
      ["S-19", "AHU-2", "Loft", "supply", "", "14", "", "0.7", "150"],
    ];
    const body = rows.map(
      (row) => `<tr>${row.map((text) => `<td align="left"><b>${text || "<br>"}</b></td>`).join("")}</tr>`,
    );
    const html = `<html><head><meta name="generator" content="a spreadsheet program"></head><body><table border="0"><colgroup width="85"></colgroup>${body.join("")}</table></body></html>`;
    await person(page).goTo("A28");
    await page.evaluate(
      async ([text, made]) => {
        const blob = (type: string, content = "") => new Blob([content], { type });
        const item = new ClipboardItem({
          "text/plain": blob("text/plain", text),
          "text/html": blob("text/html", made),
        });
        await navigator.clipboard.write([item]);
      },
      [rows.map((row) => row.join("\t")).join("\n"), html],
    );
    await keys("Control+V");
    await person(page).hasDrawn();
    expect(await person(page).read("D28")).toBe("exhaust");
    expect(await person(page).read("G29")).toBe("empty");
    expect(await person(page).read("I29")).toBe("150");
    await keys("Control+Z");
    for (const address of ["A28", "D28", "I29"]) expect(await person(page).read(address), address).toBe("empty");
  });

  it("says which of its cells do not fit, as typing would have", async () => {
    await person(page).goTo("J27");
    await paste("~350\t360\t0,75");
    const notice = page.locator(".notice.warning", { hasText: "2 pasted cells do not fit" });
    await notice.waitFor();
    expect(await notice.textContent()).toContain("J27 “~350”, L27 “0,75”");
    await keys("Control+Z");
    expect(await person(page).read("K27")).toBe("empty");
    await notice.getByRole("button", { name: "Close" }).click();
  });

  it("into locked cells does nothing, and says so", async () => {
    await person(page).goTo("O9");
    await paste("1\t2\t3");
    await note().waitFor();
    expect(await note().textContent()).toContain("Nothing was pasted");
    expect(await person(page).read("O9")).toBe("empty");
  });

  it("and a Delete on an empty cell raise no alarm about looks when the workbook is saved", async () => {
    await person(page).goTo("J30");
    await keys("Delete");
    const bytes = await filesOn(page).downloaded(() => page.locator("#save").click());
    expect(bytes.length).toBeGreaterThan(0);
    expect(await page.locator("dialog").count()).toBe(0);
    await page.locator("#kept", { hasText: "The file holds everything." }).waitFor();
    // What was entered and saved looks as it did before, also once more is entered or deleted.
    await person(page).goTo("J9");
    await keys("Delete");
    await filesOn(page).downloaded(() => page.locator("#save").click());
    await filesOn(page).downloaded(() => page.locator("#save-copy").click());
    expect(await page.locator("dialog").count()).toBe(0);
  });
});

describe("a formula", () => {
  it("squares what its sign stands before, as spreadsheet programs do", async () => {
    await person(page).addSheet();
    await person(page).type("A1", "3");
    await person(page).type("B1", "=-A1^2");
    expect(await person(page).read("B1")).toBe("9");
  });
});
