import { get, update } from "idb-keyval";
import type { WorkbookIdentity } from "../../workbook/index.js";
import type { WorkbookView } from "./workbook-view.js";

/** The ids of files that were open here, by what is in them: nothing is written into a file for it. */
const KEY = "vanesheet-identities";

type Identities = Readonly<Record<string, string>>;

const fingerprints = new WeakMap<Uint8Array, Promise<string>>();
const remembered = new WeakSet<Uint8Array>();

async function digest(bytes: Uint8Array): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", Uint8Array.from(bytes)));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function fingerprint(bytes: Uint8Array): Promise<string> {
  const known = fingerprints.get(bytes) ?? digest(bytes);
  fingerprints.set(bytes, known);
  return known;
}

/** Keeps a file's id, so that the same file is known again when it is opened next. */
async function remember(bytes: Uint8Array, id: string): Promise<void> {
  if (remembered.has(bytes)) return;
  remembered.add(bytes);
  const print = await fingerprint(bytes);
  await update<Identities>(KEY, (known) => ({ ...known, [print]: id }));
}

/** Says which workbook is in view: a new one by the id that it was given, a file by what is in it as well. */
export async function pageIdentity(view: WorkbookView): Promise<WorkbookIdentity> {
  const file = view.file();
  const given = view.identity();
  const place = file?.name ?? view.title();
  if (file === null) return { id: given, place };
  if (given !== null) {
    // A file that was saved has other bytes than before.
    await remember(file.bytes, given);
    return { id: given, place };
  }
  const known = (await get<Identities>(KEY))?.[await fingerprint(file.bytes)] ?? null;
  if (known !== null) await view.keepIdentity(known);
  return { id: known, place };
}

/** Gives the workbook in view an id. */
export async function keepPageIdentity(view: WorkbookView, id: string): Promise<void> {
  await view.keepIdentity(id);
  await pageIdentity(view);
}
