import { alikes, type Path, type Problem, type ReadValue } from "../../reading/index.js";
import type { ScenarioFile } from "./schema.js";
import { words } from "./wording.js";

/** Names of one kind that look the same and are not: a cook would take one for the other. */
export function alikeNames(file: ScenarioFile, read: ReadValue<ScenarioFile>): Problem[] {
  const services = file.services.map(({ name }) => name);
  const byService = (index: number): Path => ["services", index, "name"];
  return [
    ...among(services, (index) => read.positionOf(byService(index))),
    ...mapsOf(file).flatMap(({ path, map }) => {
      const names = Object.keys(map);
      return among(names, (index) => read.keyPositionOf([...path, names[index] ?? ""]));
    }),
  ];
}

interface NamedMap {
  readonly path: Path;
  readonly map: object;
}

function mapsOf(file: ScenarioFile): NamedMap[] {
  const { items, suppliers = {}, parts = {}, steps = {}, dishes, destinations = {}, limits, services } = file;
  return [
    ...Object.entries({ items, suppliers, parts, steps, dishes, destinations }).map(([key, map]) => ({
      path: [key],
      map,
    })),
    { path: ["limits", "vessels"], map: limits?.vessels ?? {} },
    ...services.flatMap(({ courses = {} }, index) => [
      { path: ["services", index, "courses"], map: courses },
    ]),
    ...Object.entries(items).flatMap(([item, { breakdowns = {} }]) => [
      { path: ["items", item, "breakdowns"], map: breakdowns },
      ...Object.entries(breakdowns).map(([name, breakdown]) => ({
        path: ["items", item, "breakdowns", name, "parts"],
        map: breakdown.parts,
      })),
    ]),
    ...Object.entries(steps).map(([name, { gives }]) => ({ path: ["steps", name, "gives"], map: gives })),
    ...Object.entries(dishes).map(([name, { staples = {} }]) => ({
      path: ["dishes", name, "staples"],
      map: staples,
    })),
  ];
}

function among(
  names: readonly string[],
  placeOf: (index: number) => Pick<Problem, "file" | "line" | "column">,
): Problem[] {
  return [...alikes(names)].map(([index, earlier]) => ({
    ...placeOf(index),
    ...words.alike(names[index] ?? "", names[earlier] ?? "", placeOf(earlier).line),
  }));
}
