export { DomainError } from "./check/domain-error.js";
export { airflow } from "./flow/airflow.js";
export type * from "./units/quantity.js";
