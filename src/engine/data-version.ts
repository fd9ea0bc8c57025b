/** The form of the data that this release of the library writes; what carries charts and styles must name it. */
export const DATA_VERSION = "19.3.2";
