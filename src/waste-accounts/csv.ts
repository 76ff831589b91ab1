import { type Decimal, toCurrency, toGrams } from "../quantity/index.js";
import { csvCell } from "../reading/index.js";
import type { WasteAccount } from "./account.js";
import { COUNTING_RULES, COUNTS } from "./counting.js";
import { DESTINATION_FACTS } from "./destinations.js";

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
