/** The add-in's own id in Excel: the manifest carries it, and a template names it so that Excel offers the add-in. */
export const ADDIN_ID = "0b4b2877-b7d2-4542-b719-164ffeaf2c2a";

/** The version of the package, which the manifest and the templates name; a test compares them. */
export const ADDIN_VERSION = "0.2.0";
