import { ADDIN_ID } from "../addin-id.js";

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

const EXTENSION = `${XML}<we:webextension xmlns:we="http://schemas.microsoft.com/office/webextensions/webextension/2010/11" id="{${ADDIN_ID.toUpperCase()}}"><we:reference id="${ADDIN_ID}" version="1.0.0.0" store="developer" storeType="Registry"/><we:alternateReferences/><we:properties><we:property name="Office.AutoShowTaskpaneWithDocument" value="true"/></we:properties><we:bindings/><we:snapshot xmlns:r="${OFFICE_RELATIONSHIPS}"/></we:webextension>`;

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
