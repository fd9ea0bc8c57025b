import fc from "fast-check";
import { strToU8 } from "fflate";
import { describe, expect, it } from "vitest";
import { WorkbookFileError } from "../../src/xlsx/index.js";
import { readSharedStrings } from "../../src/xlsx/read/shared-strings.js";

/** Leaves the whole table to the XML parser. */
const COMMENT = "<!---->";

function outcome(part: string): unknown {
  try {
    return readSharedStrings(strToU8(part), "test.xlsx");
  } catch (error) {
    if (error instanceof WorkbookFileError) return error.code;
    throw error;
  }
}

const table = (items: string) => `<?xml version="1.0"?>\n<sst xmlns="x" count="2">${items}</sst>`;

function expectSame(items: string): void {
  expect(outcome(table(items))).toEqual(outcome(table(COMMENT + items)));
}

describe("a table of strings in the common spelling, read by itself", () => {
  const pieces = [
    "<si><t>",
    '<si><t xml:space="preserve">',
    "<si><t/></si>",
    "<si/>",
    "<si><r><t>",
    "</t></r></si>",
    "</t></si>",
    "<t>",
    "</t>",
    "<rPh><t>",
    "</t></rPh>",
    "é日😀",
    " a ",
    "&amp;&#65;",
    "&nbsp;",
    "_x000D_",
    "]]>",
    "<![CDATA[x]]>",
    "\n",
    "</sst>",
    "<sst>",
  ];

  it("is what the XML parser makes of it, well-formed or not", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...pieces), { maxLength: 9 }), (chosen) => expectSame(chosen.join(""))),
      { numRuns: 500 },
    );
  });

  it("is what the XML parser makes of it with any one letter changed", () => {
    const items = '<si><t>Outlet</t></si><si><t xml:space="preserve"> S1 &amp; S2</t></si><si><t/></si>';
    const letters = Array.from(`<>/="'& 0t_x:.-!?[]#;\n\té`);
    fc.assert(
      fc.property(fc.nat(items.length - 1), fc.constantFrom("", ...letters), fc.nat(1), (at, letter, removed) => {
        expectSame(items.slice(0, at) + letter + items.slice(at + removed));
      }),
      { numRuns: 500 },
    );
  });

  it("is left to the parser where it stands in a comment, or deeper down", () => {
    expect(outcome("<!--<sst><si><t>no</t></si></sst>--><sst><si><t>yes</t></si></sst>")).toEqual(["yes"]);
    expect(outcome("<other><sst><si><t>a</t></si></sst></other>")).toEqual(
      outcome(`<other><sst>${COMMENT}<si><t>a</t></si></sst></other>`),
    );
  });

  it("is refused where anything behind it is no XML", () => {
    expect(outcome(`${table("<si><t>a</t></si>")}<`)).toBe("damaged-xml");
  });
});
