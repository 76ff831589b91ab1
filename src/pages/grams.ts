import { Decimal, grams } from "../quantity/index.js";
import { type DrawnPicture, drawn } from "./flow/draw.js";
import { flowPictures } from "./flow/pictures.js";
import { type FlowTable, flowTables } from "./flow/table.js";
import type { PageMaker } from "./page.js";
import type { View } from "./view.js";
import { capital, listed } from "./writing.js";

type Grams = {
  readonly scaleNote: string;
  readonly pictures: readonly DrawnPicture[];
  readonly tables: readonly FlowTable[];
};

/** Every item through its parts to the dishes and ends: in pictures to one scale, and in figures. */
export const gramsPage: PageMaker = { slug: "grams", title: "Where every gram goes", data: gramsData };

export function gramsData(view: View): Grams {
  const { pictures, pointsPerGram } = flowPictures(view);
  return {
    scaleNote: scaleNote(pointsPerGram, view),
    pictures: pictures.map(({ items, layout }, index) =>
      drawn(layout, {
        id: `flow-${index + 1}`,
        name: capital(listed(items)),
        describes: `Bands from left to right: ${listed(items)}, their parts, the dishes and ends. The table after the pictures holds the same figures.`,
        withPatterns: index === 0,
      }),
    ),
    tables: flowTables(view),
  };
}

const POINTS_PER_CENTIMETRE = 72 / 2.54;

/** The one scale of the pictures, in figures. */
function scaleNote(pointsPerGram: number, { writing }: View): string {
  const perCentimetre = grams(new Decimal((POINTS_PER_CENTIMETRE / pointsPerGram).toPrecision(2)));
  return `The width of a band is its weight, to one scale: 1 cm on paper is about ${writing.weight(perCentimetre)}. Bands under a hair's width are drawn as a hair.`;
}
