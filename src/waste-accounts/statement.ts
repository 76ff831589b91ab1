import { type Decimal, toCurrency, toGrams } from "../quantity/index.js";
import { csvCell } from "../reading/index.js";
import type { WasteAccount } from "./account.js";
import { COUNTING_RULES, COUNTS, DESTINATION_FACTS } from "./destinations.js";

/** What the Standard has a report state beside the weights, each with its head. */
export function statementOf(account: WasteAccount): { readonly head: string; readonly text: string }[] {
  const unknown = account.rows.filter(({ destination }) => destination === "not known");
  const used =
    new Set(account.rows.map(({ destination }) => destination)).size - (unknown.length > 0 ? 1 : 0);
  return [
    {
      head: "Timeframe",
      text: account.from === account.to ? account.from : `${account.from} to ${account.to}`,
    },
    {
      head: "Material types",
      text: "food, and inedible parts: what this kitchen does not intend people to eat. Spoiled food is food.",
    },
    {
      head: "Destinations",
      text: `the Standard's ten, of which ${used === 0 ? "none is" : used === 1 ? "one is" : `${used} are`} used.${
        unknown.length === 0
          ? ""
          : ` What becomes of ${[...new Set(unknown.flatMap(({ names }) => names))].join(" and ")} is not known: it stands apart, and every definition counts it as waste.`
      }`,
    },
    {
      head: "Boundary",
      text: "one kitchen (stage: restaurants and food services); all whole items and their parts, from delivery to service. Staples, drinks, packaging and what guests leave on plates are not in it.",
    },
    { head: "Method", text: methodOf(account) },
    { head: "Uncertainty", text: uncertaintyOf(account) },
    {
      head: "Weight",
      text: "as it is thrown away, without packaging. Water taken up is in the weight of what took it up; juice, drip and steam are losses, not waste.",
    },
  ];
}

function methodOf({ standings }: WasteAccount): string {
  const calculated =
    "calculated as a mass balance from purchases, yields and portions, closing to the milligram";
  const weighed = "weighed in the kitchen after service, the rest by mass balance";
  if (standings.length > 1) return `part of it ${weighed}; part of it ${calculated}.`;
  return standings[0] === "actual" ? `${weighed}.` : `${calculated}. Nothing was weighed: this is a plan.`;
}

function uncertaintyOf({ standings }: WasteAccount): string {
  return standings.includes("plan")
    ? "yields and unit weights are averages, and single items differ from them; the spread is not added up here. No sampling or scaling: only the services named are in it."
    : "the scale's step for each weighing, and slips of the hand. No sampling or scaling: only the services named are in it.";
}

const HEADING = [
  "account",
  "standing",
  "from",
  "to",
  "material_type",
  "destination",
  "own_names",
  "weight_g",
  "money",
  "currency",
  "epa_tier",
  ...COUNTS.map((count) => `counted_${count}`),
  "g_per_cover",
  "g_per_kg_bought",
];

/** Accounts as CSV (RFC 4180): one row for each material type and destination of each account. */
export function accountsCsv(accounts: readonly WasteAccount[]): string {
  const rows = accounts.flatMap((account) =>
    account.rows.map((row) => {
      const { name, tier } = DESTINATION_FACTS[row.destination];
      const weight = toGrams(row.weight);
      return [
        account.label,
        account.standings.join(" and "),
        account.from,
        account.to,
        row.material,
        name,
        row.names.join("; "),
        weight.toFixed(3),
        toCurrency(row.money).toFixed(4),
        account.currency,
        tier === null ? "" : String(tier),
        ...COUNTS.map((count) => (COUNTING_RULES[count].counts.includes(row.destination) ? "yes" : "no")),
        account.covers === 0 ? "" : weight.div(account.covers).toFixed(3),
        perKilogramBought(weight, account),
      ];
    }),
  );
  return [HEADING, ...rows].map((cells) => `${cells.map(csvCell).join(",")}\r\n`).join("");
}

function perKilogramBought(weight: Decimal, { purchased }: WasteAccount): string {
  return purchased === 0n ? "" : weight.times(1000).div(toGrams(purchased)).toFixed(3);
}
