/*
 * Taking over somebody's own sheet: what its columns seem to hold (proposeColumns), what a person says of them
 * (withAnswers), and the same for other workbooks of the same make (fitWorkbook). What was agreed to is kept in the
 * workbook by the names that ../lists reads (namesOfMapping).
 */

export { type Agreement, agreementOf } from "./agreement.js";
export { type Answer, readAnswer, withAnswers } from "./answers.js";
export { measuredBy } from "./column-content.js";
export { CONTENT_WORDS, contentWord } from "./content-words.js";
export {
  type Conversion,
  type ConversionChoice,
  type Conversions,
  conversionsOf,
  type NotConverted,
} from "./convert-airflows.js";
export { plainAgain } from "./convert-back.js";
export { type FittedWorkbook, fitWorkbook } from "./fit-workbook.js";
export {
  HEADING_WORDS,
  type HeadingMeaning,
  type HeadingState,
  type HeadingWords,
  STATE_WORDS,
} from "./heading-words.js";
export { mappingEdits, mappingNames, mergedMappings } from "./keep-mappings.js";
export {
  mappingOf,
  type ProposedColumn,
  type ProposedList,
  proposeColumns,
  type WhereToLook,
} from "./propose-columns.js";
