import { describe, expect, it } from "vitest";
import { vanesheet } from "./vanesheet.js";

describe("vanesheet eval", () => {
  it("prints the airflow of a face", () => {
    expect(vanesheet("eval", "=VANE.AIRFLOW.FACE(14,6,{400,420;380,400},0.75)")).toEqual({
      status: 0,
      out: "175",
      err: "",
    });
  });

  it("prints the published nine-point traverse: 900 cfm", () => {
    // NAVFAC MO-114 vol. 3, ch. 2, question 2-2
    const { out } = vanesheet("eval", "=VANE.AIRFLOW.DUCT(18,18,{300,450,300;450,600,450;300,450,300})");
    expect(out).toBe("900");
  });

  it("prints a block row by row", () => {
    expect(vanesheet("eval", "=VANE.OPENING.RECT({12,24},{12;6})").out).toBe("1\t2\n0.5\t1");
  });

  it("prints an error's code, its message apart, and ends with 1", () => {
    const { status, out, err } = vanesheet("eval", "=VANE.AIRFLOW.FACE(14,6,{400,0})");
    expect({ status, out }).toEqual({ status: 1, out: "#VALUE!" });
    expect(err).toContain("COUNT");
  });

  it("gives the same as data", () => {
    expect(JSON.parse(vanesheet("eval", "=VANE.AIRFLOW(400,2.5)", "--json").out)).toEqual({
      kind: "value",
      value: 1000,
    });
    const failed = vanesheet("eval", "=VANE.OPENING.FREE(2,1.5)", "--json");
    expect(failed.status).toBe(1);
    expect(JSON.parse(failed.out)).toMatchObject({ kind: "error", code: "#VALUE!" });
  });
});

describe("vanesheet functions", () => {
  it("lists every function and shows the help of one, with or without its namespace", () => {
    expect(vanesheet("functions").out).toContain(
      "=VANE.AIRFLOW.FACE(width, height, readings, [factor], [taken], [units])",
    );
    expect(vanesheet("functions", "airflow.face").out).toBe(vanesheet("functions", "VANE.AIRFLOW.FACE").out);
    expect(JSON.parse(vanesheet("functions", "AIRFLOW", "--json").out)).toMatchObject({ id: "AIRFLOW" });
  });
});

describe("a command typed wrongly", () => {
  it.each([
    [["nonsense"], "there is no command"],
    [["eval"], "FORMULA is missing"],
    [["eval", "=1", "=2"], "One FORMULA is taken"],
    [["functions", "NOPE"], 'There is no function "NOPE"'],
    [["functions", "AIRFLOW.NOPE"], "Near it: VANE.AIRFLOW"],
    [["functions", "--nope"], "Unknown option"],
    [["__proto__"], "there is no command"],
  ])("%j says what is wrong and ends with 2", (args, part) => {
    const { status, err } = vanesheet(...args);
    expect(status).toBe(2);
    expect(err).toContain(part);
  });
});
