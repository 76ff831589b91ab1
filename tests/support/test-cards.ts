import { readTestCard } from "../../src/kitchen/index.js";
import { problemText } from "../../src/reading/index.js";
import {
  checkTestCard,
  type TestCard,
  type TestFigures,
  type TestKind,
  testFigures,
} from "../../src/yields/index.js";

/** The problems of a test card called `t.yaml`, as they are printed. */
export function cardProblems(text: string): string[] {
  return checkTestCard(readTestCard({ file: "t.yaml", text })).problems.map(problemText);
}

/** A test card that has no problem. */
export function testCard(text: string): TestCard {
  const { card, problems } = checkTestCard(readTestCard({ file: "t.yaml", text }));
  if (card === null) throw new Error(problems.map(problemText).join("\n"));
  return card;
}

/** One test of a card that has no problem. */
export function worked(text: string, kind: TestKind = "butchers"): TestFigures {
  const figures = testFigures(testCard(text)).find((each) => each.kind === kind);
  if (figures === undefined) throw new Error(`no ${kind} test`);
  return figures;
}

/** An invented joint: a butcher's test and the cooking-loss test after it. */
export const VEAL = `item: veal breast
currency: EUR
ap_weight: 5.2 kg
ap_price: 7.40 / kg
butchers_test:
  by_products:
    bones: {weight: 900 g, value: 1.50 / kg}
    trimmings: {weight: 640 g, value: 4.20 / kg}
    sinew: 130 g
  cutting_loss: 50 g
  usable_weight: 3.48 kg
  portion: 180 g
cooking_loss_test:
  cooked_weight: 2.4 kg
  carved: {ends: {weight: 150 g, value: 5.00 / kg}}
  carving_loss: 20 g
  served_weight: 2.23 kg
  portion: 120 g
`;
