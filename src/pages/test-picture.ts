import { Decimal } from "../quantity/index.js";
import type { TestedYields } from "../yields/index.js";

/** Published, own and together on one line a part, as text for SVG. */
export type TestPicture = {
  readonly width: string;
  readonly height: string;
  readonly axisY: string;
  readonly ticks: readonly { readonly x: string; readonly text: string }[];
  readonly lines: readonly PictureLine[];
};

type PictureLine = {
  readonly part: string;
  readonly textY: string;
  readonly ruleY: string;
  readonly marks: readonly Mark[];
};

/** A dot with a whisker of one standard deviation each way. */
type Mark = {
  readonly kind: "published" | "own" | "together";
  readonly x: string;
  readonly y: string;
  readonly from: string;
  readonly to: string;
};

const LEFT = 20;
const RIGHT = 24;
const WIDTH = 640;
const LINE = 66;
const TOP = 40;
const MARK_Y = { published: 31, own: 42, together: 53 } as const;

/** All parts to one scale from 0, so that lengths compare. */
export function testPicture(rows: TestedYields["rows"]): TestPicture {
  const tops = rows.flatMap(({ figures }) => [
    figures.published.toNumber() + figures.publishedError,
    figures.tested + figures.testedError,
  ]);
  const most = Math.min(1, Math.ceil(Math.max(...tops) * 10) / 10);
  const at = (fraction: number) => {
    const inside = Math.min(most, Math.max(0, fraction));
    return new Decimal(LEFT + (inside / most) * (WIDTH - LEFT - RIGHT)).toFixed(1);
  };
  const axisY = TOP + rows.length * LINE + 6;
  const steps = Math.round(most * 10);
  const every = steps > 5 ? 2 : 1;
  return {
    width: String(WIDTH),
    height: String(axisY + 26),
    axisY: String(axisY),
    ticks: Array.from({ length: Math.floor(steps / every) + 1 }, (_, index) => ({
      x: at((index * every) / 10),
      text: `${index * every * 10} %`,
    })),
    lines: rows.map(({ part, figures }, index) => {
      const top = TOP + index * LINE;
      const mark = (kind: Mark["kind"], value: number, error: number): Mark => ({
        kind,
        x: at(value),
        y: String(top + MARK_Y[kind]),
        from: at(value - error),
        to: at(value + error),
      });
      return {
        part,
        textY: String(top + 17),
        ruleY: String(top + LINE - 2),
        marks: [
          mark("published", figures.published.toNumber(), figures.publishedError),
          mark("own", figures.tested, figures.testedError),
          mark("together", figures.combined.toNumber(), figures.standardError),
        ],
      };
    }),
  };
}
