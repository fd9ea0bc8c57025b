import { Buffer } from "node:buffer";
import { constants, deflateRawSync } from "node:zlib";
import type { WorkbookFileErrorCode } from "../../../src/xlsx/index.js";
import { buildZip, type ZipItem } from "../../support/build-zip.js";
import { plainParts } from "../../xlsx/plain-workbook.js";

/** A file that a workbook program must refuse, made anew each time. */
export interface HostileWorkbook {
  readonly title: string;
  readonly code: WorkbookFileErrorCode;
  /** A few words of the message. */
  readonly says: string;
  readonly make: () => Uint8Array;
}

const SHEET = "xl/worksheets/sheet1.xml";
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const MEGABYTE = 2 ** 20;
const ascii = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));
const utf16 = (text: string): Buffer => Buffer.from(text, "utf16le");

/** A sound workbook's entries, some replaced (by content or by a lying entry), some added. */
function items(changes: Readonly<Record<string, string | Uint8Array | Partial<ZipItem>>>): ZipItem[] {
  const all = new Map<string, ZipItem>();
  for (const [name, content] of Object.entries(plainParts('<row r="1"><c r="A1"><v>1</v></c></row>'))) {
    all.set(name, { name, content });
  }
  for (const [name, change] of Object.entries(changes)) {
    const before = all.get(name) ?? { name, content: "" };
    const isContent = typeof change === "string" || change instanceof Uint8Array;
    all.set(name, isContent ? { name, content: change } : { ...before, ...change });
  }
  return [...all.values()];
}

const book = (changes: Parameters<typeof items>[0]): Uint8Array => buildZip(items(changes));
const sheet = (xml: string | Uint8Array): Uint8Array => book({ [SHEET]: xml });
const rows = (xml: string): Uint8Array => sheet(`<worksheet xmlns="${MAIN}"><sheetData>${xml}</sheetData></worksheet>`);
const strings = (xml: string): Uint8Array => {
  const list = plainParts("")["xl/_rels/workbook.xml.rels"] ?? "";
  const type = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings";
  const more = `<Relationship Id="s" Type="${type}" Target="sharedStrings.xml"/></Relationships>`;
  return book({
    "xl/_rels/workbook.xml.rels": list.replace("</Relationships>", more),
    "xl/sharedStrings.xml": xml,
  });
};
const withType = (type: string): Uint8Array => {
  const types = plainParts("")["[Content_Types].xml"] ?? "";
  return book({ "[Content_Types].xml": types.replace(/application\/vnd\.openxml[^"]*sheet\.main\+xml/, type) });
};
const compoundFile = (stream: string): Uint8Array => {
  const file = Buffer.alloc(4096);
  Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]).copy(file);
  utf16("Root Entry").copy(file, 1024);
  utf16(stream).copy(file, 1152);
  return new Uint8Array(file);
};
/** Zeros, deflated to a thousandth; made from one piece, so that making them takes neither time nor memory. */
const zeros = (megabytes: number): Uint8Array => {
  const piece = deflateRawSync(Buffer.alloc(MEGABYTE), { level: 9, finishFlush: constants.Z_FULL_FLUSH });
  const end = deflateRawSync(Buffer.alloc(0));
  return new Uint8Array(Buffer.concat([...Array.from({ length: megabytes }, () => piece), end]));
};
/** Deflated to a fiftieth: the same letters again and again, with some that differ. */
const spaces = (megabytes: number): Uint8Array => {
  const text = Array.from({ length: 26_000 }, (_, index) => ` ${index % 997} `.padEnd(40)).join("");
  const content = Buffer.from(text.padEnd(MEGABYTE));
  const piece = deflateRawSync(content, { finishFlush: constants.Z_FULL_FLUSH });
  return new Uint8Array(
    Buffer.concat([...Array.from({ length: megabytes }, () => piece), deflateRawSync(Buffer.alloc(0))]),
  );
};
const edited = (bytes: Uint8Array, edit: (copy: Buffer) => void): Uint8Array => {
  const copy = Buffer.from(bytes);
  edit(copy);
  return new Uint8Array(copy);
};
const ENTITIES = `<!DOCTYPE sst [<!ENTITY a "${"ha".repeat(50)}">${Array.from("bcdefghi", (name, index) => {
  return `<!ENTITY ${name} "${`&${"abcdefgh"[index]};`.repeat(10)}">`;
}).join("")}]>`;

/** Files that are no workbooks at all. */
const disguises: readonly HostileWorkbook[] = [
  { title: "an empty file", code: "empty", says: "0 bytes", make: () => new Uint8Array() },
  { title: "a .csv file", code: "plain-text", says: "plain text", make: () => ascii("Room,Design\r\n101,425\r\n") },
  {
    title: "a text file in UTF-16",
    code: "plain-text",
    says: "plain text",
    make: () => new Uint8Array(Buffer.concat([Buffer.from([0xff, 0xfe]), utf16("Room\tDesign\r\n")])),
  },
  {
    title: "a web page",
    code: "web-page",
    says: "web page",
    make: () => ascii("\n<!-- x --><html><body><table><tr><td>1</td></tr></table></body></html>"),
  },
  {
    title: "an XML spreadsheet",
    code: "not-a-workbook",
    says: "XML file",
    make: () => ascii('<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"/>'),
  },
  { title: "a PDF", code: "pdf", says: "PDF", make: () => ascii("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n") },
  { title: "a rich text document", code: "not-a-workbook", says: "text document", make: () => ascii("{\\rtf1 x}") },
  { title: "an old .xls workbook", code: "old-format", says: ".xls", make: () => compoundFile("Workbook") },
  { title: "an encrypted workbook", code: "encrypted", says: "password", make: () => compoundFile("EncryptedPackage") },
  { title: "an old document", code: "not-a-workbook", says: "old Office", make: () => compoundFile("WordDocument") },
  {
    title: "a picture",
    code: "not-a-workbook",
    says: "not an .xlsx",
    make: () => new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13]),
  },
  {
    title: "a zip archive of texts",
    code: "not-a-workbook",
    says: "without a workbook",
    make: () => buildZip([{ name: "notes.txt", content: "hello" }]),
  },
  {
    title: "an OpenDocument sheet",
    code: "open-document",
    says: "OpenDocument",
    make: () =>
      buildZip([
        { name: "mimetype", content: "application/vnd.oasis.opendocument.spreadsheet", method: 0 },
        { name: "content.xml", content: "<office:document-content/>" },
      ]),
  },
  {
    title: "a text document of Office",
    code: "not-a-workbook",
    says: "another Office document",
    make: () => withType("application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"),
  },
  {
    title: "a binary workbook",
    code: "binary-workbook",
    says: ".xlsb",
    make: () => withType("application/vnd.ms-excel.sheet.binary.macroEnabled.main"),
  },
];

/** Archives that are damaged or lie about their entries. */
const archives: readonly HostileWorkbook[] = [
  { title: "half an archive", code: "damaged-archive", says: "cut short", make: () => book({}).slice(0, 700) },
  {
    title: "an archive with something after its end",
    code: "damaged-archive",
    says: "end of the archive",
    make: () => new Uint8Array(Buffer.concat([book({}), Buffer.from("trailing")])),
  },
  {
    title: "a sheet of a gigabyte of zeros",
    code: "unsafe-archive",
    says: "100-fold",
    make: () => book({ [SHEET]: { packed: zeros(900), declaredBytes: 900 * MEGABYTE } }),
  },
  {
    title: "many entries that are modest each and too much together",
    code: "too-large",
    says: "would unpack to",
    make: () => {
      const packed = zeros(4);
      const many = Array.from({ length: 300 }, (_, index) => {
        return { name: `xl/media/${index}.bin`, content: "", packed, declaredBytes: 4 * MEGABYTE };
      });
      return buildZip([...items({}), ...many]);
    },
  },
  {
    title: "a sheet that unpacks to far more than it declares",
    code: "unsafe-archive",
    says: "more than it declares",
    make: () => book({ [SHEET]: { packed: zeros(900), declaredBytes: 3 * MEGABYTE } }),
  },
  {
    title: "a sheet that declares nothing and holds a gigabyte",
    code: "unsafe-archive",
    says: "cannot be true",
    make: () => book({ [SHEET]: { packed: zeros(900), declaredBytes: 0 } }),
  },
  {
    title: "a sheet that declares four gigabytes and holds ten bytes",
    code: "unsafe-archive",
    says: "cannot be true",
    make: () => book({ [SHEET]: { content: "<worksheet/>", declaredBytes: 0xfffffff0 } }),
  },
  {
    title: "a sheet shorter than it declares",
    code: "damaged-archive",
    says: "less than it declares",
    make: () => book({ [SHEET]: { content: "<worksheet/>", declaredBytes: 60 } }),
  },
  {
    title: "a stored sheet of the wrong length",
    code: "unsafe-archive",
    says: "cannot be true",
    make: () => book({ [SHEET]: { content: "<worksheet/>", method: 0, declaredBytes: 60 } }),
  },
  {
    title: "a sheet that does not match its check sum",
    code: "damaged-archive",
    says: "check sum",
    make: () => book({ [SHEET]: { content: "<worksheet/>", declaredCrc32: 1 } }),
  },
  {
    title: "a sheet of packed rubbish",
    code: "damaged-archive",
    says: "cannot be unpacked",
    make: () => book({ [SHEET]: { packed: new Uint8Array(200).fill(0xff), declaredBytes: 300 } }),
  },
  {
    title: "two parts of one name",
    code: "unsafe-archive",
    says: "two parts named",
    make: () => buildZip([...items({}), { name: "XL/Workbook.xml", content: "<workbook/>" }]),
  },
  {
    title: "a part that climbs out of its folder",
    code: "unsafe-archive",
    says: "unsafe name",
    make: () => book({ "xl/../../evil.xml": "<a/>" }),
  },
  {
    title: "a part with an absolute name",
    code: "unsafe-archive",
    says: "unsafe name",
    make: () => book({ "/etc/evil": "<a/>" }),
  },
  {
    title: "a part that leads outside with backslashes",
    code: "unsafe-archive",
    says: "unsafe name",
    make: () => book({ "xl\\..\\..\\evil.xml": "<a/>" }),
  },
  {
    title: "a part with a drive letter",
    code: "unsafe-archive",
    says: "unsafe name",
    make: () => book({ "C:evil.xml": "<a/>" }),
  },
  {
    title: "entries that share their bytes",
    code: "unsafe-archive",
    says: "contradicts",
    make: () => buildZip([...items({}), { name: "xl/copy.xml", content: "", sharesDataOf: 4 }]),
  },
  {
    title: "entries that overlap",
    code: "unsafe-archive",
    says: "shares its bytes",
    make: () => {
      const inner = buildZip([{ name: "inner.xml", content: "<a/>", method: 0 }]);
      const outer = buildZip([
        ...items({ "outer.bin": { content: inner, method: 0 } }),
        { name: "inner.xml", content: "<a/>", method: 0, sharesDataOf: 0 },
      ]);
      return edited(outer, (copy) => {
        const record = copy.lastIndexOf("PK\x01\x02", undefined, "latin1");
        const innerLocal = copy.indexOf("inner.xml") - 30;
        copy.writeUInt32LE(innerLocal, record + 42);
      });
    },
  },
  {
    title: "an entry whose header names another part",
    code: "unsafe-archive",
    says: "contradicts",
    make: () => book({ [SHEET]: { localName: "xl/worksheets/sheet2.xml" } }),
  },
  {
    title: "an encrypted entry",
    code: "encrypted",
    says: "encrypted",
    make: () => book({ [SHEET]: { flags: 1 } }),
  },
  {
    title: "an entry packed by another method",
    code: "unsafe-archive",
    says: "method (12)",
    make: () => book({ [SHEET]: { method: 12, packed: ascii("BZh9") } }),
  },
  {
    title: "an archive in ZIP64 form",
    code: "unsafe-archive",
    says: "ZIP64",
    make: () => edited(book({}), (copy) => copy.writeUInt16LE(0xffff, copy.length - 12)),
  },
  {
    title: "an entry in ZIP64 form",
    code: "unsafe-archive",
    says: "ZIP64",
    make: () => book({ [SHEET]: { declaredBytes: 0xffffffff } }),
  },
  {
    title: "twenty thousand entries",
    code: "unsafe-archive",
    says: "20005 parts",
    make: () =>
      buildZip([
        ...items({}),
        ...Array.from({ length: 20_000 }, (_, index) => ({ name: `xl/media/${index}`, content: "", method: 0 })),
      ]),
  },
  {
    title: "a second directory before the end",
    code: "damaged-archive",
    says: "wrong length",
    make: () => {
      const bytes = Buffer.from(book({}));
      const end = bytes.length - 22;
      return new Uint8Array(Buffer.concat([bytes.subarray(0, end), Buffer.alloc(64), bytes.subarray(end)]));
    },
  },
  {
    title: "a directory that points into nowhere",
    code: "damaged-archive",
    says: "not where the directory says",
    make: () => {
      return edited(book({}), (copy) =>
        copy.writeUInt32LE(77, copy.lastIndexOf("PK\x01\x02", undefined, "latin1") + 42),
      );
    },
  },
];

/** XML made to exhaust or to mislead. */
const markup: readonly HostileWorkbook[] = [
  {
    title: "entities that grow a billion-fold",
    code: "unsafe-xml",
    says: "document type",
    make: () => strings(`<?xml version="1.0"?>${ENTITIES}<sst xmlns="${MAIN}"><si><t>&i;</t></si></sst>`),
  },
  {
    title: "an entity that reads a file",
    code: "unsafe-xml",
    says: "document type",
    make: () => sheet('<!DOCTYPE w [<!ENTITY x SYSTEM "file:///etc/passwd">]><worksheet>&x;</worksheet>'),
  },
  {
    title: "an entity that nobody defined",
    code: "damaged-xml",
    says: "undefined entity",
    make: () => rows('<row r="1"><c r="A1" t="str"><v>&x;</v></c></row>'),
  },
  {
    title: "a sheet in UTF-16 with half of a character",
    code: "unsafe-xml",
    says: "UTF-16",
    make: () =>
      sheet(new Uint8Array(Buffer.concat([Buffer.from([0xff, 0xfe]), utf16("<worksheet>\ud800</worksheet>")]))),
  },
  {
    title: "a sheet that claims another encoding",
    code: "unsafe-xml",
    says: "encoding",
    make: () => sheet('<?xml version="1.0" encoding="UTF-7"?><worksheet/>'),
  },
  {
    title: "a sheet whose text is not UTF-8",
    code: "unsafe-xml",
    says: "not UTF-8",
    make: () =>
      sheet(
        ascii('<worksheet><sheetData><row r="1"><c r="A1" t="str"><v>\xff\xc3</v></c></row></sheetData></worksheet>'),
      ),
  },
  {
    title: "elements a hundred thousand deep",
    code: "unsafe-xml",
    says: "256 deep",
    make: () => sheet(`<worksheet>${"<a>".repeat(100_000)}${"</a>".repeat(100_000)}</worksheet>`),
  },
  {
    title: "a sheet that breaks off",
    code: "damaged-xml",
    says: "not well-formed",
    make: () => sheet("<worksheet><sheetData>"),
  },
  {
    title: "a sheet with a forbidden character",
    code: "damaged-xml",
    says: "not well-formed",
    make: () => rows('<row r="1"><c r="A1" t="str"><v>\u0001</v></c></row>'),
  },
  {
    title: "five million empty cells",
    code: "too-large",
    says: "4000000 cells",
    make: () => {
      const row = `<row>${"<c/>".repeat(16_384)}</row>`;
      const content = `<worksheet><sheetData>${row.repeat(310)}</sheetData></worksheet>`;
      return book({ [SHEET]: { content, method: 0 } });
    },
  },
  {
    title: "a sheet of 130 megabytes",
    code: "too-large",
    says: "128 MB",
    make: () => book({ [SHEET]: { packed: spaces(130), declaredBytes: 130 * MEGABYTE } }),
  },
  {
    title: "a file of 130 megabytes",
    code: "too-large",
    says: "larger than 128 MB",
    make: () => book({ [SHEET]: { content: new Uint8Array(130 * MEGABYTE), method: 0 } }),
  },
  {
    title: "a text of two megabytes in one cell",
    code: "unsafe-xml",
    says: "more than 1 MB",
    make: () => rows(`<row r="1"><c r="A1" t="str"><v>${"x".repeat(2 * MEGABYTE)}</v></c></row>`),
  },
  {
    title: "a list of sheets of 40 megabytes",
    code: "too-large",
    says: "32 MB",
    make: () => book({ "xl/workbook.xml": { content: new Uint8Array(40 * MEGABYTE).fill(32), method: 0 } }),
  },
  {
    title: "an element with fifty thousand attributes",
    code: "unsafe-xml",
    says: "1000 attributes",
    make: () => {
      const attributes = Array.from({ length: 50_000 }, (_, index) => ` a${index}=""`).join("");
      return sheet(`<worksheet${attributes}><sheetData/></worksheet>`);
    },
  },
  {
    title: "a cell's address of twenty megabytes",
    code: "unsafe-xml",
    says: "more than 1 MB",
    make: () =>
      book({
        [SHEET]: {
          content: `<worksheet><sheetData><row r="1"><c r="${"A".repeat(20 * MEGABYTE)}"/></row></sheetData></worksheet>`,
          method: 0,
        },
      }),
  },
];

/** Well-formed parts that contradict each other. */
const contents: readonly HostileWorkbook[] = [
  {
    title: "a text that the table of texts lacks",
    code: "damaged-workbook",
    says: "A1 refers to a text",
    make: () => rows('<row r="1"><c r="A1" t="s"><v>7</v></c></row>'),
  },
  {
    title: "a cell beyond the last column",
    code: "damaged-workbook",
    says: "XFE1",
    make: () => rows('<row r="1"><c r="XFE1"><v>7</v></c></row>'),
  },
  {
    title: "a row beyond the last row",
    code: "damaged-workbook",
    says: "outside the sheet",
    make: () => rows('<row r="1048577"><c r="A1048577"><v>7</v></c></row>'),
  },
  {
    title: "one cell twice",
    code: "damaged-workbook",
    says: "A1 comes twice",
    make: () => rows('<row r="1"><c r="A1"/><c r="A1"><v>7</v></c></row>'),
  },
  {
    title: "rows out of order",
    code: "damaged-workbook",
    says: "comes twice or too late",
    make: () => rows('<row r="2"/><row r="1"/>'),
  },
  {
    title: "a cell with two values",
    code: "damaged-workbook",
    says: "A1 holds a formula or a value twice",
    make: () => rows('<row r="1"><c r="A1"><v>1</v><v>2</v></c></row>'),
  },
  {
    title: "a cell whose formula stands behind its value",
    code: "damaged-workbook",
    says: "A1 holds a formula or a value twice or in the wrong order",
    make: () => rows('<row r="1"><c r="A1"><v>1</v><f>1+1</f></c></row>'),
  },
  ...["-1", "3", "1e308", "NaN"].map((count) => ({
    title: `a table of two rows with ${count} of them for totals`,
    code: "damaged-workbook" as const,
    says: "more headings or totals than it has rows",
    make: () =>
      book({
        "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships><Relationship Id="t" Type="x/table" Target="/xl/t.xml"/></Relationships>`,
        "xl/t.xml": `<table displayName="T" ref="A1:B2" totalsRowCount="${count}"/>`,
      }),
  })),
  {
    title: "a number that is none",
    code: "damaged-workbook",
    says: "A1 holds “NaN”",
    make: () => rows('<row r="1"><c r="A1"><v>NaN</v></c></row>'),
  },
  {
    title: "a number beyond all bounds",
    code: "damaged-workbook",
    says: "1e999",
    make: () => rows('<row r="1"><c r="A1"><v>1e999</v></c></row>'),
  },
  {
    title: "a workbook whose sheet is missing",
    code: "damaged-workbook",
    says: "lacks its part",
    make: () => buildZip(items({}).filter(({ name }) => name !== SHEET)),
  },
  {
    title: "a workbook that is its own sheet",
    code: "damaged-workbook",
    says: "not a worksheet",
    make: () => {
      const list = plainParts("")["xl/_rels/workbook.xml.rels"] ?? "";
      return book({ "xl/_rels/workbook.xml.rels": list.replace("worksheets/sheet1.xml", "workbook.xml") });
    },
  },
  {
    title: "a workbook without sheets",
    code: "damaged-workbook",
    says: "no sheet",
    make: () => book({ "xl/workbook.xml": `<workbook xmlns="${MAIN}"><sheets/></workbook>` }),
  },
  {
    title: "two lists of cells in one sheet",
    code: "damaged-workbook",
    says: "two lists",
    make: () => sheet(`<worksheet xmlns="${MAIN}"><sheetData/><sheetData/></worksheet>`),
  },
  {
    title: "a sheet that lies on the network",
    code: "damaged-workbook",
    says: "does not hold",
    make: () => {
      const list = plainParts("")["xl/_rels/workbook.xml.rels"] ?? "";
      const outside = 'Target="http://192.0.2.1/s.xml" TargetMode="External"';
      return book({ "xl/_rels/workbook.xml.rels": list.replace('Target="worksheets/sheet1.xml"', outside) });
    },
  },
];

/** Every file that must be refused. */
export const hostileWorkbooks: readonly HostileWorkbook[] = [...disguises, ...archives, ...markup, ...contents];
