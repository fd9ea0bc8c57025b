import { Contrib, Enums, Models, Serialize, Spec } from "@cyclonedx/cyclonedx-library";
import type { BundledPackage } from "../third-party.js";

/** What an artifact is, for its list of contents. */
export interface Artifact {
  readonly name: string;
  readonly version: string;
  readonly description: string;
}

function component({ name, version, license }: BundledPackage): Models.Component {
  const [group, plain] = name.startsWith("@") ? name.split("/") : [undefined, name];
  const licenses = new Contrib.License.Factories.LicenseFactory((value) => /^[\w.()+ -]+$/.test(value));
  return new Models.Component(Enums.ComponentType.Library, plain ?? name, {
    version,
    ...(group === undefined ? {} : { group }),
    licenses: new Models.LicenseRepository([licenses.makeFromString(license)]),
    purl: `pkg:npm/${name.replace("@", "%40")}@${version}`,
    bomRef: `${name}@${version}`,
  });
}

/**
 * Lists what an artifact contains, as CycloneDX JSON. No date and no random number, so that the same contents give the
 * same text.
 *
 * @source CycloneDX 1.6, ECMA-424
 */
export function billOfMaterials(artifact: Artifact, packages: readonly BundledPackage[]): string {
  const bom = new Models.Bom({
    metadata: new Models.Metadata({
      component: new Models.Component(Enums.ComponentType.Application, artifact.name, {
        version: artifact.version,
        description: artifact.description,
        bomRef: `${artifact.name}@${artifact.version}`,
      }),
    }),
    components: new Models.ComponentRepository(packages.map(component)),
  });
  const serializer = new Serialize.JsonSerializer(new Serialize.JSON.Normalize.Factory(Spec.Spec1dot6));
  return `${serializer.serialize(bom, { sortLists: true, space: 2 })}\n`;
}
