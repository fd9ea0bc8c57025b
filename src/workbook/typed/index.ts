export { readTypedSize, type SizeMath, type TypedSize } from "./read-typed-size.js";
