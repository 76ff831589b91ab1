import { grams } from "../../src/quantity/index.js";
import type { YieldTest } from "../../src/yields/index.js";

const HEADING = "item,form,breakdown,supplier,date,test,units,ap_g,scale_step_g,part,weight_g,class";

/** Invented weighings of four broccoli crowns: this kitchen gets fewer florets than the tables have, of larger crowns. */
export function crownTests(numbers: readonly number[]): string {
  return [HEADING, ...numbers.flatMap((number) => crownRows(number))].map((row) => `${row}\n`).join("");
}

/** The rows of one of them, without the heading. */
export function crownRows(number: number, { ap = 1600, floret = 1000 + number } = {}): string[] {
  const head = `broccoli,crown,florets,Field & Co,2026-10-12,${number},4,${ap},1`;
  return [
    `${head},floret,${floret},food`,
    `${head},stem,460,food`,
    `${head},trim,100,inedible`,
    `${head},loss,${1600 - 1560 - number},loss`,
  ];
}

/** An invented weighing of rhubarb with its leaves, which the tables call never. */
export function rhubarbTest(leafClass: string): string {
  const head = "rhubarb,stalks with leaves,trimmed,Field & Co,2026-10-12,1,1,1000,1";
  return [
    HEADING,
    `${head},stalk,640,food`,
    `${head},leaf,170,${leafClass}`,
    `${head},ends,180,inedible`,
    `${head},loss,10,loss`,
  ]
    .map((row) => `${row}\n`)
    .join("");
}

/** An invented test of one broccoli crown of which nothing is written but what is stated. */
export function aYieldTest(stated: Partial<YieldTest>): YieldTest {
  return {
    item: "broccoli",
    form: "crown",
    breakdown: "florets",
    supplier: "Field & Co",
    date: "2026-10-12",
    number: 1,
    units: 1,
    apWeight: grams("5"),
    parts: [],
    loss: grams("0"),
    scaleStep: grams("1"),
    ...stated,
  };
}
