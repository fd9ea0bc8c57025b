import { ADDIN_ID, ADDIN_VERSION } from "../addin-id.js";
import { escapedXml } from "./xml-text.js";

const RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE_RELATIONSHIPS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const OFFICE_2011 = "http://schemas.microsoft.com/office/2011/relationships";
const XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

const ROOT_RELATIONSHIP = `<Relationship Id="rIdVanesheetPane" Type="${OFFICE_2011}/webextensiontaskpanes" Target="xl/webextensions/taskpanes.xml"/>`;

const CONTENT_TYPES = [
  '<Override PartName="/xl/webextensions/taskpanes.xml" ContentType="application/vnd.ms-office.webextensiontaskpanes+xml"/>',
  '<Override PartName="/xl/webextensions/webextension1.xml" ContentType="application/vnd.ms-office.webextension+xml"/>',
].join("");

/** The task pane stays closed until the person opens it; the reference alone lets Excel offer the add-in. */
const TASKPANES = `${XML}<wetp:taskpanes xmlns:wetp="http://schemas.microsoft.com/office/webextensions/taskpanes/2010/11"><wetp:taskpane dockstate="right" visibility="0" width="350" row="0"><wetp:webextensionref xmlns:r="${OFFICE_RELATIONSHIPS}" r:id="rId1"/></wetp:taskpane></wetp:taskpanes>`;

const TASKPANES_RELATIONSHIPS = `${XML}<Relationships xmlns="${RELATIONSHIPS}"><Relationship Id="rId1" Type="${OFFICE_2011}/webextension" Target="webextension1.xml"/></Relationships>`;

/** How the add-in was given to people: a workbook names it by that, and Excel finds it by no other name. */
export type AddinDeployment =
  | { readonly kind: "admin" }
  | { readonly kind: "developer" }
  | { readonly kind: "share"; readonly path: string };

function reference(deployment: AddinDeployment, version: string): string {
  const [store, storeType] =
    deployment.kind === "admin"
      ? ["EXCatalog", "EXCatalog"]
      : deployment.kind === "developer"
        ? ["developer", "Registry"]
        : [escapedXml(deployment.path), "FileSystem"];
  return `<we:reference id="${ADDIN_ID}" version="${version}" store="${store}" storeType="${storeType}"/>`;
}

/**
 * Returns the part of a workbook that names the add-in and asks Excel to show its pane with the workbook.
 *
 * @param version - The manifest's: `0.1.0.0`
 * @source Microsoft, Automatically open a task pane with a document: store and storeType by the way of deployment
 */
export function webExtensionPart(deployment: AddinDeployment, version: string): string {
  return `${XML}<we:webextension xmlns:we="http://schemas.microsoft.com/office/webextensions/webextension/2010/11" id="{${ADDIN_ID.toUpperCase()}}">${reference(deployment, version)}<we:alternateReferences/><we:properties><we:property name="Office.AutoShowTaskpaneWithDocument" value="true"/></we:properties><we:bindings/><we:snapshot xmlns:r="${OFFICE_RELATIONSHIPS}"/></we:webextension>`;
}

/** What the templates of the repository say; a build for a firm may say otherwise. */
const EXTENSION = webExtensionPart({ kind: "admin" }, `${ADDIN_VERSION}.0`);

/** Adds the parts that name our add-in, so that Excel offers it to a person who opens the workbook. */
export function withWebExtension(parts: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const insert = (name: string, before: string, text: string): string => {
    const part = parts[name] ?? "";
    if (!part.includes(before)) throw new Error(`The writer no longer writes ${name} as expected.`);
    return part.replace(before, () => text + before);
  };
  return {
    ...parts,
    "[Content_Types].xml": insert("[Content_Types].xml", "</Types>", CONTENT_TYPES),
    "_rels/.rels": insert("_rels/.rels", "</Relationships>", ROOT_RELATIONSHIP),
    "xl/webextensions/taskpanes.xml": TASKPANES,
    "xl/webextensions/_rels/taskpanes.xml.rels": TASKPANES_RELATIONSHIPS,
    "xl/webextensions/webextension1.xml": EXTENSION,
  };
}
