import { addDays, type Part, type Scenario } from "../kitchen/index.js";
import { dateRule } from "./dates.js";
import type { Warning } from "./findings.js";
import { lastLegalDay } from "./life.js";
import type { Lineage } from "./lineage.js";
import { isPreserved, tcsOf } from "./tcs.js";

const FROZEN_SOURCE = "FDA Food Code 2022, 3-501.17 and 3-501.18 (North Carolina date-marking sheet)";

/** What the kitchen must know about the dates of parts, stock on hand and what is left of dishes. */
export function dateWarnings(scenario: Scenario, lineage: Lineage): Warning[] {
  return [...partWarnings(scenario, lineage), ...stockWarnings(scenario, lineage), ...dishWarnings(scenario)];
}

function partWarnings(scenario: Scenario, lineage: Lineage): Warning[] {
  const rule = dateRule(scenario.rules);
  return scenario.parts.flatMap((part) => {
    if (part.class !== "food") return [];
    const [item = null] = lineage.itemsOf(part);
    const legal = lastLegalDay(part, item, 0, scenario.rules);
    const reason = tcsOf(part, item);
    if (reason !== null && legal !== null && (part.keepsDays ?? Number.POSITIVE_INFINITY) > legal + 1) {
      const said = part.keepsDays === null ? "has no stated life" : `is said to keep ${part.keepsDays} days`;
      return [
        dated(
          "date-mark",
          part,
          `${part.name} ${said} and needs temperature control (${reason.text}): bacteria that grow in the cold. It is planned for at most ${rule.days} days, the day of cutting being day 1.`,
          rule.source,
        ),
      ];
    }
    if (isPreserved(part.name) && (part.keepsDays ?? rule.days + 1) > rule.days)
      return [
        dated(
          "date-mark",
          part,
          `${part.name} is taken to be dried, pickled or preserved and is not held to ${rule.days} days: bacteria grow if it is not acid or dry enough. That must be shown (pH 4.6 or less, or water activity 0.85 or less).`,
          "FDA Food Code 1-201.10, from memory",
        ),
      ];
    return [];
  });
}

function stockWarnings(scenario: Scenario, lineage: Lineage): Warning[] {
  const rule = dateRule(scenario.rules);
  return scenario.partsOnHand.flatMap((entry) => {
    const part = lineage.parts.get(entry.part);
    if (part === undefined) return [];
    if (part.state === "frozen")
      return [
        dated(
          "frozen-on-hand",
          part,
          `${part.name} is on hand frozen: freezing stops the clock and does not set it back. Count the days it was chilled before freezing when you thaw it.`,
          FROZEN_SOURCE,
        ),
      ];
    const { since } = entry;
    // What the kitchen cut or worked before has its date from the plan that it was cut or worked by.
    if (since?.how === "cut" || (since?.part ?? part.name) !== part.name) return [];
    const [item = null] = lineage.itemsOf(part);
    const legal = lastLegalDay(part, item, since?.day ?? 0, scenario.rules);
    if (legal === null) return [];
    const latest = addDays(scenario.firstDate, legal);
    if (entry.lastDay === null)
      return [
        dated(
          "no-use-by",
          part,
          `${part.name} is on hand without a use-by date and needs temperature control: bacteria that grow in the cold. Date-mark it; it cannot be later than ${latest}.`,
          rule.source,
        ),
      ];
    return entry.lastDay > legal
      ? [
          dated(
            "use-by-too-late",
            part,
            `${part.name} is on hand with a use-by date of ${entry.useBy ?? `day ${entry.lastDay}`}, later than the law allows for food made before the plan began: bacteria that grow in the cold. It cannot be later than ${latest}.`,
            rule.source,
          ),
        ]
      : [];
  });
}

function dishWarnings(scenario: Scenario): Warning[] {
  const rule = dateRule(scenario.rules);
  return scenario.dishes
    .filter(({ keepsDays }) => (keepsDays ?? 1) > rule.days)
    .map(({ name, keepsDays }) => ({
      code: "date-mark",
      text: `${name} is said to keep ${keepsDays} days: bacteria that grow in the cold. What is left may be offered at most ${rule.days} days from the day the oldest part in it that needs temperature control was cut. Source: ${rule.source}.`,
      source: rule.source,
      part: null,
      dish: name,
    }));
}

function dated(code: string, part: Part, text: string, source: string): Warning {
  return { code, text: `${text} Source: ${source}.`, source, part: part.name, dish: null };
}
