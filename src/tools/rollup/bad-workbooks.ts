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

/** Ten ways in which a file that ends in .xlsx is no job that can be read, each made from a sound one. */
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
  "another workbook": (sound) =>
    withPart(
      withPart(sound, "xl/workbook.xml", (text) => text.replace('name="Job summary"', 'name="Price list"')),
      "xl/sharedStrings.xml",
      (text) =>
        HEADINGS_OF_A_JOB.reduce((changed, heading) => changed.replace(`<t>${heading}</t>`, "<t>Price</t>"), text),
    ),
};
