import {
  Decimal,
  type Money,
  minus,
  NO_MONEY,
  NO_WEIGHT,
  scale,
  toGrams,
  total,
  type Weight,
} from "../quantity/index.js";
import {
  accountOf,
  COUNTING_RULES,
  COUNTS,
  countedBy,
  DESTINATION_FACTS,
  FLW_DESTINATIONS,
  statementOf,
  type WasteAccount,
} from "../waste-accounts/index.js";
import { type DocumentOptions, documentPage } from "./document.js";
import { flowTotal } from "./movements.js";
import type { PageMaker } from "./page.js";
import type { Page } from "./render.js";
import { isKind, type View } from "./view.js";
import { type WasteFigure, wasteFigures, wasteNote } from "./waste-figures.js";
import { counted, listed, once, type Writing } from "./writing.js";

type AccountData = {
  readonly unit: string;
  readonly standing: string;
  readonly figures: readonly { readonly name: string; readonly value: string }[];
  readonly rows: readonly {
    readonly destination: string;
    readonly names: string;
    readonly scale: string;
    readonly food: string;
    readonly inedible: string;
    readonly all: string;
    readonly money: string;
  }[];
  readonly sums: {
    readonly food: string;
    readonly inedible: string;
    readonly all: string;
    readonly money: string;
  };
  readonly eachHead: string;
  readonly counts: readonly {
    readonly name: string;
    readonly food: string;
    readonly inedible: string;
    readonly all: string;
    readonly each: string;
    readonly leaves: string;
    readonly source: string;
  }[];
  readonly statement: readonly { readonly head: string; readonly text: string }[];
};

/** The plan's waste by material and destination, counted by each definition, with what a report must state. */
export const wasteAccountPage: PageMaker = {
  slug: "waste-account",
  title: "Waste account",
  data: (view) => ({ accounts: [{ label: "", ...accountData(accountOfView(view), view.writing) }] }),
};

/** A page of several accounts, such as the weeks of a period and their sum. */
export function wasteAccountsPage(
  accounts: readonly WasteAccount[],
  writing: Writing,
  options: DocumentOptions,
): Page {
  const data = accounts.map((account) => ({ label: account.label, ...accountData(account, writing) }));
  return documentPage("waste-account", "Waste account", { accounts: data }, options);
}

/** The account in whole steps of the scale, as every other page of the plan prints its weights. */
function accountOfView({ plan, scenario, movements, accountOf: accountNamed }: View): WasteAccount {
  const from = (...kinds: string[]) => flowTotal(movements, (flow) => isKind(flow.from, ...kinds));
  const into = (...kinds: string[]) => flowTotal(movements, (flow) => isKind(flow.to, ...kinds));
  const weighed = movements.flows.map(({ from: source, to, weight }) => ({
    from: accountNamed(source),
    to: accountNamed(to),
    weight,
    money: NO_MONEY,
    cause: "",
  }));
  const paid = plan.transfers.map((transfer) => ({ ...transfer, weight: NO_WEIGHT }));
  const weights = {
    ...plan.weights,
    purchased: from("supplier"),
    onHand: from("onHand"),
    absorbed: from("water"),
    inDishes: minus(into("dish"), from("dish")),
    givenAway: into("givenAway"),
    closingStock: into("closingStock"),
    losses: into("loss"),
  };
  return accountOf({ ...plan, transfers: [...weighed, ...paid], weights }, scenario.name, "plan");
}

function accountData(account: WasteAccount, writing: Writing): AccountData {
  const { rows } = account;
  const of = (material: string, destination: string | null): Weight =>
    total(
      rows
        .filter(
          (row) => row.material === material && (destination === null || row.destination === destination),
        )
        .map(({ weight }) => weight),
    );
  const paid = (destination: string | null): Money =>
    total(
      rows.filter((row) => destination === null || row.destination === destination).map((row) => row.money),
    );
  const line = (destination: string | null) => {
    const food = of("food", destination);
    const inedible = of("inedible parts", destination);
    return {
      food: writing.shown(food),
      inedible: writing.shown(inedible),
      all: writing.shown(total([food, inedible])),
      money: writing.money(paid(destination)),
    };
  };
  return {
    unit: writing.unit,
    standing: account.standings
      .map((standing) => (standing === "plan" ? "as planned" : "as weighed"))
      .join(" and "),
    figures: figuresOf(account, of("food", null), paid(null), writing),
    rows: FLW_DESTINATIONS.filter((destination) => rows.some((row) => row.destination === destination)).map(
      (destination) => {
        const here = rows.filter((row) => row.destination === destination);
        const { name, tier, pathway } = DESTINATION_FACTS[destination];
        return {
          destination: name,
          names: listed(once(here.flatMap(({ names }) => names))),
          scale: tier === null ? pathway : `tier ${tier}: ${pathway}`,
          ...line(destination),
        };
      },
    ),
    sums: line(null),
    eachHead: account.covers === 0 ? "a portion eaten" : "a cover",
    counts: COUNTS.map((count) => {
      const { food, inedible, weight, leftOut } = countedBy(account, count);
      const { name, source } = COUNTING_RULES[count];
      return {
        name,
        food: writing.shown(food),
        inedible: writing.shown(inedible),
        all: writing.shown(weight),
        each: perHead(weight, account, writing),
        leaves: once(
          leftOut.map(
            ({ row, why }) =>
              `leaves out ${writing.weight(row.weight)} of ${row.material} (${DESTINATION_FACTS[row.destination].name.toLowerCase()}): ${why}`,
          ),
        ).join("; "),
        source,
      };
    }),
    statement: statementOf(account),
  };
}

function figuresOf(
  account: WasteAccount,
  wasted: Weight,
  lost: Money,
  writing: Writing,
): AccountData["figures"] {
  const eaten = total([account.onPlates, account.givenAway, account.closingStock]);
  const usable = total([eaten, wasted]);
  const [, ...besides] = wasteFigures(account.waste, writing);
  const all = countedBy(account, "flw").weight;
  const people =
    account.covers === 0
      ? counted(writing, account.portionsEaten, "portion")
      : counted(writing, account.covers, "cover");
  return [
    {
      name: "Usable yield",
      value: `${writing.weight(eaten)} of ${writing.weight(usable)} food used, ${writing.percent(eaten, usable)}`,
    },
    { name: "Wasted food", value: `${writing.weight(wasted)}, ${writing.percent(wasted, usable)}` },
    ...besides.map((figure) => ({ name: figure.name, value: besidesText(figure, writing) })),
    {
      name: "Food and inedible parts",
      value: `${writing.weight(all)}: ${perHead(all, account, writing)} each of ${people}; ${perKilogram(all, account, writing)} for every kg bought`,
    },
    { name: "Money lost", value: `${writing.money(lost)} of ${writing.money(account.spent)} spent` },
  ];
}

function besidesText(figure: WasteFigure, writing: Writing): string {
  const eaten = figure.kind === "givenAway" ? ["eaten by people, tier 2 of the scale"] : [];
  const note = [...eaten, wasteNote(figure)].filter((each) => each !== "").join("; ");
  return note === "" ? writing.weight(figure.weight) : `${writing.weight(figure.weight)}: ${note}`;
}

function perHead(weight: Weight, { covers, portionsEaten }: WasteAccount, writing: Writing): string {
  const people = covers === 0 ? portionsEaten : covers;
  return people === 0 ? "–" : writing.weight(scale(weight, new Decimal(1).div(people)));
}

function perKilogram(weight: Weight, { purchased }: WasteAccount, writing: Writing): string {
  if (purchased === NO_WEIGHT) return "–";
  return writing.weight(scale(weight, new Decimal(1000).div(toGrams(purchased))));
}
