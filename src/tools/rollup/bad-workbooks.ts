import { Buffer } from "node:buffer";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";

const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

/** A file of the old kind of container, in which spreadsheets of before 2007 lie, and those with a password. */
function compoundFile(stream: string): Uint8Array {
  const file = Buffer.alloc(4096);
  Buffer.from(COMPOUND_FILE).copy(file);
  Buffer.from("Root Entry", "utf16le").copy(file, 1024);
  Buffer.from(stream, "utf16le").copy(file, 1152);
  return new Uint8Array(file);
}

function withPart(workbook: Uint8Array, part: string, change: (text: string) => string): Uint8Array {
  const parts = unzipSync(workbook);
  return zipSync({ ...parts, [part]: strToU8(change(strFromU8(parts[part] ?? new Uint8Array()))) });
}

/** Without them a sheet is no list of outlets, whatever it is called. */
const HEADINGS_OF_A_JOB = [
  "Outlet",
  "Kind",
  "Width",
  "Height",
  "Factor",
  "Design airflow",
  "Measured before",
  "Measured after",
];

function withoutPart(workbook: Uint8Array, part: string): Uint8Array {
  const { [part]: _, ...rest } = unzipSync(workbook);
  return zipSync(rest);
}

/** Eighteen ways in which a file that ends in .xlsx is no job that can be read, each made from a sound one. */
export const BAD_WORKBOOKS: Readonly<Record<string, (sound: Uint8Array) => Uint8Array>> = {
  empty: () => new Uint8Array(),
  "cut off": (sound) => sound.subarray(0, sound.length / 2),
  "with a password": () => compoundFile("EncryptedPackage"),
  "of before 2007": () => compoundFile("Workbook"),
  "plain text": () => strToU8("Outlet,Design,Measured\nS-1,100,95\n"),
  "a web page": () => strToU8("<!DOCTYPE html><html><body><table><tr><td>S-1</td></tr></table></body></html>"),
  "a PDF": () => strToU8("%PDF-1.7\n%âãÏÓ\n1 0 obj\n<<>>\nendobj\n"),
  "an archive without a workbook": () => zipSync({ "readme.txt": strToU8("nothing here") }),
  "damaged within": (sound) =>
    withPart(sound, "xl/worksheets/sheet2.xml", (text) => text.replace("</sheetData>", "<row></sheetData>")),
  "filled with zeros": (sound) => new Uint8Array(sound.length),
  "a picture": () =>
    new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52]),
  "a sheet in one XML file": () =>
    strToU8('<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"></Workbook>'),
  "without the sheet that it lists": (sound) => withoutPart(sound, "xl/worksheets/sheet2.xml"),
  "an archive of a workbook": (sound) => zipSync({ "job.xlsx": sound }),
  "with a document type": (sound) =>
    withPart(sound, "xl/worksheets/sheet2.xml", (text) => text.replace("<worksheet", "<!DOCTYPE worksheet><worksheet")),
  "its beginning lost": (sound) => sound.subarray(64),
  "of another office program": () =>
    zipSync({ mimetype: strToU8("application/vnd.oasis.opendocument.spreadsheet"), "content.xml": strToU8("<x/>") }),
  "another workbook": (sound) =>
    withPart(
      withPart(sound, "xl/workbook.xml", (text) => text.replace('name="Job summary"', 'name="Price list"')),
      "xl/sharedStrings.xml",
      (text) =>
        HEADINGS_OF_A_JOB.reduce((changed, heading) => changed.replace(`<t>${heading}</t>`, "<t>Price</t>"), text),
    ),
};
