import type { Scenario } from "../kitchen/index.js";
import { falseClaims, undeclared } from "./check-allergens.js";
import { dateWarnings } from "./check-dates.js";
import { falseDiets } from "./check-diets.js";
import { eggAdvice, eggBlocks } from "./check-egg.js";
import { cautions, neverFood, untreated } from "./check-hazards.js";
import { statedParts, unknownParts } from "./check-unknown.js";
import type { SafetyBlock, Warning } from "./findings.js";
import { lineageOf } from "./lineage.js";

/**
 * Everything about a scenario that could hurt someone, as far as the tables know: what must not be planned at
 * all, and what the kitchen must be told. A scenario with a block gets no plan; nothing overrides it.
 */
export function checkSafety(scenario: Scenario): { blocks: SafetyBlock[]; warnings: Warning[] } {
  const lineage = lineageOf(scenario);
  return {
    blocks: [
      ...neverFood(scenario, lineage),
      ...untreated(scenario, lineage),
      ...unknownParts(scenario, lineage),
      ...eggBlocks(scenario),
      ...falseClaims(scenario),
      ...falseDiets(scenario, lineage),
    ],
    warnings: [
      ...cautions(scenario, lineage),
      ...statedParts(scenario, lineage),
      ...eggAdvice(scenario, lineage),
      ...undeclared(scenario),
      ...dateWarnings(scenario, lineage),
    ],
  };
}
