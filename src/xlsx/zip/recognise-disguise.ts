import { WorkbookFileError, type WorkbookFileErrorCode } from "../workbook-file-error.js";
import { utf8Text } from "../xml/utf8.js";

/** First bytes of a compound file, which holds old .xls workbooks and password-protected .xlsx workbooks alike. */
const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const HEAD_BYTES = 4096;

const SAVE_AS = "Open it in your spreadsheet program and save it as .xlsx.";

/**
 * Throws when a file is not a zip archive, saying what it really is.
 *
 * @param bytes - The whole file
 * @param fileName - Named in the message
 * @throws {WorkbookFileError} When the file does not start as a zip archive does
 */
export function refuseDisguise(bytes: Uint8Array, fileName: string): void {
  if (startsWith(bytes, [0x50, 0x4b, 0x03, 0x04])) return;
  const [code, problem, advice] = recognise(bytes);
  throw new WorkbookFileError(code, fileName, problem, advice);
}

type Finding = readonly [WorkbookFileErrorCode, string, string];

function recognise(bytes: Uint8Array): Finding {
  if (bytes.length === 0) return ["empty", "is empty (0 bytes)", "Get the file again, or restore it from a backup."];
  if (startsWith(bytes, COMPOUND_FILE)) return recogniseCompoundFile(bytes);
  const text = readHead(bytes);
  const start = text?.trimStart().slice(0, 1024).toLowerCase() ?? "";
  if (start.startsWith("%pdf")) {
    return ["pdf", "is a PDF, not a workbook", "Ask for the workbook that the PDF was printed from."];
  }
  if (/^(<!doctype html|<html|<head|<body|<table|<meta|<style|<div|<script)/.test(start) || /<html[\s>]/.test(start)) {
    return ["web-page", "is a web page, not a workbook", SAVE_AS];
  }
  if (start.startsWith("<")) return ["not-a-workbook", "is an XML file, not an .xlsx workbook", SAVE_AS];
  if (start.startsWith("{\\rtf")) return ["not-a-workbook", "is a text document, not a workbook", SAVE_AS];
  if (text !== undefined) {
    return ["plain-text", "is plain text (such as .csv), not a workbook", SAVE_AS];
  }
  return ["not-a-workbook", "is not an .xlsx workbook", "Choose a file that your spreadsheet program saved as .xlsx."];
}

/** An encrypted workbook keeps its content in a stream of that name [MS-OFFCRYPTO 2.3.4.4]; names are in UTF-16. */
function recogniseCompoundFile(bytes: Uint8Array): Finding {
  if (includesUtf16(bytes, "EncryptedPackage")) {
    return [
      "encrypted",
      "is protected by a password",
      "Open it in your spreadsheet program, remove the password, save.",
    ];
  }
  if (includesUtf16(bytes, "Workbook") || includesUtf16(bytes, "Book")) {
    return ["old-format", "is an old .xls workbook", SAVE_AS];
  }
  return ["not-a-workbook", "is an old Office document, not an .xlsx workbook", SAVE_AS];
}

function includesUtf16(bytes: Uint8Array, name: string): boolean {
  const wanted = Array.from(name).flatMap((letter) => [letter.charCodeAt(0), 0]);
  const [first] = wanted;
  for (let at = bytes.indexOf(first as number); at >= 0; at = bytes.indexOf(first as number, at + 1)) {
    if (wanted.every((byte, index) => bytes[at + index] === byte)) return true;
  }
  return false;
}

/** Returns the first characters of a text file, or undefined when the bytes are not text. */
function readHead(bytes: Uint8Array): string | undefined {
  const head = bytes.subarray(0, HEAD_BYTES);
  const isLittle = head[0] === 0xff && head[1] === 0xfe;
  if (isLittle || (head[0] === 0xfe && head[1] === 0xff)) {
    const codes = Array.from({ length: head.length >> 1 }, (_, index) => {
      const [low, high] = isLittle ? [0, 1] : [1, 0];
      return (head[2 * index + low] as number) | ((head[2 * index + high] as number) << 8);
    });
    return String.fromCharCode(...codes.slice(1));
  }
  if (head.some((byte) => byte < 9 || (byte > 13 && byte < 32 && byte !== 27))) return undefined;
  return utf8Text(head).replace(/^\ufeff/, "");
}

function startsWith(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, index) => bytes[index] === byte);
}
