import { z } from "zod";
import { isIsoDate } from "../kitchen/index.js";

/** A decimal number as text. */
export const decimal = z
  .string()
  .regex(/^-?\d+(\.\d+)?$/, 'a decimal number as text, such as "12.5"')
  .meta({ title: "decimal" })
  .brand<"decimal">();

/** Grams, to the milligram. */
export const weight = z
  .string()
  .regex(
    /^\d{1,12}(\.\d{1,3})?$/,
    'a weight in grams as text, 0 or more and to the milligram, such as "12.5"',
  )
  .meta({ title: "grams" })
  .brand<"grams">();

/** Currency units, to the ten-thousandth. */
export const amount = z
  .string()
  .regex(/^\d{1,12}(\.\d{1,4})?$/, 'an amount of money as text, 0 or more, such as "6.60"')
  .meta({ title: "money" })
  .brand<"money">();

const MOST = 1_000_000_000;
const COUNT = "a whole number, 0 or more, such as 12";

/** How many of something. */
export const count = z.number({ error: COUNT }).int(COUNT).min(0, COUNT).max(MOST, COUNT);

/** Which of the scenario's parts on hand a lot is or was made of. */
export const stock = count
  .nullable()
  .describe(
    "Which of the scenario's parts on hand the lot is or was made of, from 0; null for a lot that was cut.",
  );

/** A day of the calendar. */
export const date = z.string().refine(isIsoDate, 'a day such as "2026-10-02"').meta({ title: "date" });

const CURRENCIES = new Set(Intl.supportedValuesOf("currency"));

/** A currency by its three letters. */
export const currency = z
  .string()
  .refine((code) => CURRENCIES.has(code), 'a currency by its three letters, such as "EUR"')
  .meta({ title: "ISO 4217 code" });
