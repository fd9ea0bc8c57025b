export * from "./host.js";
