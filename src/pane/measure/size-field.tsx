import type { ComponentChildren } from "preact";
import type { TypedSize } from "../../workbook/index.js";
import { wordsWithFigures } from "../controls/shown-figure.js";
import { TextField } from "../controls/text-field.js";

interface SizeFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onInput: (text: string) => void;
  readonly read: TypedSize | undefined;
  readonly unit: string;
  readonly hint?: ComponentChildren;
}

/** A field for a size as people write it, echoed as it was understood. */
export function SizeField({ read, ...props }: SizeFieldProps) {
  const error = read && "error" in read ? wordsWithFigures(read.error) : null;
  const understood = read && "understood" in read ? wordsWithFigures(read.understood) : null;
  return <TextField {...props} error={error} understood={understood} />;
}
