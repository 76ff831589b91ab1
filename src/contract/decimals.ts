import { z } from "zod";

/** A weight in grams or an amount of money in currency units, as a decimal string. */
export const decimal = z.string().regex(/^-?\d+(\.\d+)?$/, "a decimal number as text");
