import type { z } from "zod";
import type { Decimal, Money, Weight } from "../quantity/index.js";

/** What a schema of the contract describes, as it stands in JSON: every figure is text. */
export type Written<T> =
  T extends z.$brand<string> ? string : T extends object ? { [Key in keyof T]: Written<T[Key]> } : T;

/** The same in memory: grams are a Weight, currency units a Money, other decimal numbers a Decimal. */
export type Typed<T> =
  T extends z.$brand<"grams">
    ? Weight
    : T extends z.$brand<"money">
      ? Money
      : T extends z.$brand<"decimal">
        ? Decimal
        : T extends object
          ? { [Key in keyof T]: Typed<T[Key]> }
          : T;
