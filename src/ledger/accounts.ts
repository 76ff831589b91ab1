import { LedgerError } from "./errors.js";

/** Where weight or money stands. The names are part of the plan's JSON. */
export type Account =
  | "supplier"
  | "staples"
  | "onHand"
  | "water"
  | "closingStock"
  | `item:${string}`
  | `part:${string}`
  | `dish:${string} @ ${string}`
  | `givenAway:${string}`
  | `wastedFood:${string}`
  | `inedible:${string}`
  | `loss:${Loss}`;

export type Loss = "cutting" | "storage" | "cooking";

const KINDS = [
  "supplier",
  "staples",
  "onHand",
  "water",
  "closingStock",
  "item",
  "part",
  "dish",
  "givenAway",
  "wastedFood",
  "inedible",
  "loss",
] as const;

export type AccountKind = (typeof KINDS)[number];

export const itemAccount = (item: string): Account => `item:${item}`;
export const partAccount = (part: string): Account => `part:${part}`;
export const dishAccount = (dish: string, service: string): Account => `dish:${dish} @ ${service}`;
export const givenAwayAccount = (where: string): Account => `givenAway:${where}`;
export const wastedFoodAccount = (where: string): Account => `wastedFood:${where}`;
export const inedibleAccount = (where: string): Account => `inedible:${where}`;
export const lossAccount = (loss: Loss): Account => `loss:${loss}`;

/** The kind of account a name stands for: what comes before its colon. An unknown kind is a LedgerError. */
export function accountKind(account: string): AccountKind {
  const prefix = account.split(":", 1)[0];
  const kind = KINDS.find((known) => known === prefix);
  if (kind === undefined) throw new LedgerError(`"${account}" is no account of the ledger`);
  return kind;
}
