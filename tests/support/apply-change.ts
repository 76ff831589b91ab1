import type { Dish, Scenario } from "../../src/kitchen/index.js";
import { Decimal, grams, money } from "../../src/quantity/index.js";

const GRAMS: Readonly<Record<string, string>> = { g: "1", oz: "28.349523125" };

/**
 * A scenario with changes written into it as a cook would, from the words of a reason alone: "ceiling of soup: 0.88",
 * or two of them with a semicolon between.
 */
export function applyChanges(scenario: Scenario, changes: string): Scenario {
  return changes.split("; ").reduce(applyChange, scenario);
}

function applyChange(scenario: Scenario, change: string): Scenario {
  const [subject = "", value = ""] = change.split(": ");
  const [figure = "", unit = ""] = value.split(" ");
  const weight = () => grams(new Decimal(figure).times(GRAMS[unit] ?? Number.NaN));
  const share = () => new Decimal(figure).div(100);
  const dish = (name: string | undefined, changed: (dish: Dish) => Partial<Dish>): Scenario => ({
    ...scenario,
    dishes: scenario.dishes.map((each) => (each.name === name ? { ...each, ...changed(each) } : each)),
  });
  const service = (
    name: string | undefined,
    changed: (each: Scenario["services"][number]) => Partial<Scenario["services"][number]>,
  ): Scenario => ({
    ...scenario,
    services: scenario.services.map((each) => (each.name === name ? { ...each, ...changed(each) } : each)),
  });
  const rules: [RegExp, (found: RegExpMatchArray) => Scenario][] = [
    [/^ceiling of (.+)$/, ([, name]) => dish(name, () => ({ ceiling: money(figure) }))],
    [
      /^price of (.+)$/,
      ([, name]) => ({
        ...scenario,
        items: scenario.items.map((item) =>
          item.name === name && item.buying !== null
            ? { ...item, buying: { ...item.buying, price: money(figure) } }
            : item,
        ),
      }),
    ],
    [
      /^(most|least) (.+) to buy$/,
      ([, side = "", name]) => ({
        ...scenario,
        items: scenario.items.map((item) =>
          item.name === name && item.buying !== null
            ? { ...item, buying: { ...item.buying, [side]: Number(figure) } }
            : item,
        ),
      }),
    ],
    [
      /^(most|least) portions of (.+)$/,
      ([, side = "", name]) =>
        dish(name, ({ portions }) => {
          const fixed = portions?.least === portions?.most;
          const all = { least: Number(figure), most: Number(figure) };
          return { portions: fixed || portions === null ? all : { ...portions, [side]: Number(figure) } };
        }),
    ],
    [
      /^(.+) covers at (.+)$/,
      ([, diet, name]) =>
        service(name, ({ diets }) => ({
          diets: diets.map((each) =>
            each.diets.join(" and ") === diet ? { ...each, covers: Number(figure) } : each,
          ),
        })),
    ],
    [
      /^covers at (.+)$/,
      ([, name]) =>
        service(name, ({ courses }) => ({
          covers: Number(figure),
          courses: courses.map((course) => ({
            ...course,
            portions: course.takeUp.times(figure).ceil().toNumber(),
          })),
        })),
    ],
    [
      /^(most|least) dishes of (.+) at (.+)$/,
      ([, side = "", course, name]) =>
        service(name, ({ courses }) => ({
          courses: courses.map((each) =>
            each.name === course ? { ...each, [`${side}Dishes`]: Number(figure) } : each,
          ),
        })),
    ],
    [
      /^(most|least) share of (.+) in (.+)$/,
      ([, side = "", part, name]) =>
        dish(name, ({ lines }) => ({
          lines: lines.map((line) => ({
            ...line,
            from: line.from.map((source) =>
              source.part === part ? { ...source, [`${side}Share`]: share() } : source,
            ),
          })),
        })),
    ],
    [
      /^(least order|delivery charge) of (.+)$/,
      ([, term, name]) => ({
        ...scenario,
        suppliers: (scenario.suppliers ?? []).map((each) =>
          each.name === name
            ? { ...each, [term === "least order" ? "minimum" : "delivery"]: money(figure) }
            : each,
        ),
      }),
    ],
    [/^overage at (.+)$/, ([, name]) => service(name, () => ({ overage: share() }))],
    [/^hands before (.+)$/, ([, name]) => service(name, () => ({ handsMinutes: Number(figure) }))],
    [/^cold room$/, () => ({ ...scenario, limits: { ...scenario.limits, chilled: weight() } })],
    [/^freezer$/, () => ({ ...scenario, limits: { ...scenario.limits, frozen: weight() } })],
    [
      /^(?:more )?(.+?)(?: or what stands in for it)? a portion of (.+)$/,
      ([, line, name]) =>
        dish(name, ({ lines }) => ({
          lines: lines.map((each) =>
            each.name === line
              ? { ...each, least: weight(), most: each.least === each.most ? weight() : each.most }
              : each,
          ),
        })),
    ],
    [
      /^(.+) in (.+)$/,
      ([, staple, name]) =>
        dish(name, ({ staples }) => ({
          staples: staples.map((each) =>
            each.name === staple ? { ...each, costPerPortion: new Decimal(figure) } : each,
          ),
        })),
    ],
  ];
  for (const [pattern, apply] of rules) {
    const found = subject.match(pattern);
    if (found !== null) return apply(found);
  }
  throw new Error(`nobody knows how to write "${change}" into a scenario`);
}
