import { InvalidArgumentError } from "commander";
import { hourlyWage, type Money, WAGE_REMEDY } from "../quantity/index.js";

export const DEFAULT_SECONDS = 10;

/** Seconds. */
export function positive(text: string): number {
  const value = Number(text);
  if (!(value > 0 && Number.isFinite(value)))
    throw new InvalidArgumentError("Write seconds above 0, such as 10.");
  return value;
}

export function surePercent(text: string): number {
  const value = Number(text.replace(/%$/, ""));
  if (!(value >= 50 && value <= 99))
    throw new InvalidArgumentError("Write a percent from 50 to 99, such as 95.");
  return value;
}

export function wholeAbove0(text: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < 1 || !Number.isSafeInteger(value))
    throw new InvalidArgumentError("Write a whole number from 1 on, such as 10000.");
  return value;
}

export function wholeFromTwo(text: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < 2)
    throw new InvalidArgumentError("Write a whole number from 2, such as 12.");
  return value;
}

export function wage(text: string): Money {
  const read = hourlyWage(text);
  if (read === null) throw new InvalidArgumentError(`${WAGE_REMEDY}.`);
  return read;
}

export function portNumber(text: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value > 65_535)
    throw new InvalidArgumentError("Write a number from 0 to 65535.");
  return value;
}
