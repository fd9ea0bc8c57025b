import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from "fflate";
import { type AddinDeployment, webExtensionPart } from "../../workbook/plan-file/web-extension.js";

export type { AddinDeployment };

const PART = "xl/webextensions/webextension1.xml";

/** Each file of a zip carries a time; one and the same keeps a build the same. */
const SOME_TIME = new Date(2026, 0, 1);

/**
 * Returns a template that names the add-in as it was given to people.
 *
 * @param version - Of the package; the manifest's is this with a zero behind it
 */
export function asDeployed(bytes: Uint8Array, deployment: AddinDeployment, version: string): Uint8Array {
  const parts = unzipSync(bytes);
  const before = parts[PART];
  if (before === undefined) throw new Error(`A template has no part ${PART}.`);
  const wanted = webExtensionPart(deployment, `${version}.0`);
  if (strFromU8(before) === wanted) return bytes;
  const files: Zippable = Object.fromEntries(
    Object.entries({ ...parts, [PART]: strToU8(wanted) }).map(([name, part]) => [name, [part, { mtime: SOME_TIME }]]),
  );
  return zipSync(files, { level: 9 });
}

/**
 * Reads how the add-in is given to people.
 *
 * @param given - What `VANESHEET_DEPLOYED` says: `admin` (also where it says nothing), `developer`, or a network share
 * @throws {Error} Where it is none of these
 */
export function addinDeployment(given: string | undefined): AddinDeployment {
  const wanted = given?.trim() ?? "";
  if (wanted === "" || wanted === "admin") return { kind: "admin" };
  if (wanted === "developer") return { kind: "developer" };
  if (/^\\\\[^\\]+\\[^\\]+/.test(wanted)) return { kind: "share", path: wanted };
  throw new Error(
    `VANESHEET_DEPLOYED is “${wanted}”. Give admin, developer, or the network share with the manifest, as \\\\server\\vanesheet.`,
  );
}
