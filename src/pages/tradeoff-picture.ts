import { Decimal } from "../quantity/index.js";
import { textWidth, wrap } from "./flow/text-width.js";

/** A dot: a plan, by what it wastes and spends in the units of the axes, and its name. */
export interface Dot {
  readonly across: Decimal;
  readonly up: Decimal;
  readonly name: string;
}

export interface Axes {
  /** "Waste, kg" */
  readonly across: string;
  readonly up: string;
  readonly figure: (value: Decimal) => string;
}

/** A picture as its template prints it: all lengths in the picture's own units. */
export type DrawnCurve = {
  readonly kind: string;
  readonly viewBox: string;
  readonly describes: string;
  readonly id: string;
  readonly lines: readonly { readonly kind: string; readonly path: string }[];
  readonly dots: readonly { readonly x: string; readonly y: string; readonly r: string }[];
  readonly texts: readonly {
    readonly x: string;
    readonly y: string;
    readonly anchor: string;
    readonly text: string;
  }[];
};

/** Points on paper: the print area of A4 is 538 wide; a phone is as wide as 230 of them at the least type. */
const SIZES = {
  wide: { width: 538, plot: 250, height: 180 },
  narrow: { width: 230, plot: 170, height: 150 },
};
const TYPE = 11;
const LINE = 14;
const RADIUS = 3.5;
const GAP = 5;

/**
 * Dots on two axes that both begin at nothing. Names stand in steps above the plot, each beside a line straight up
 * from its dot: as every next dot lies further right, no name meets another's line. The narrow picture numbers its
 * dots instead.
 */
export function drawnCurve(
  kind: keyof typeof SIZES,
  dots: readonly Dot[],
  axes: Axes,
  describes: string,
): DrawnCurve {
  const { width, plot, height } = SIZES[kind];
  const most = (values: readonly Decimal[]): Decimal => Decimal.max(0, ...values);
  const acrossTicks = ticksTo(most(dots.map(({ across }) => across)));
  const upTicks = ticksTo(most(dots.map(({ up }) => up)));
  const left = GAP + Math.max(...upTicks.map((tick) => textWidth(axes.figure(tick), TYPE)));
  const right = left + Math.min(plot, width - left - 2 * LINE);
  const x = (value: Decimal): number => left + (right - left) * share(value, acrossTicks);
  const names = dots.map(({ across, name }, index) =>
    kind === "wide" ? wrap(name, width - x(across) - 4 * GAP, TYPE) : [String(index + 1)],
  );
  const above = LINE * names.reduce((sum, lines) => sum + lines.length, 0);
  const top = LINE + above + 2 * GAP;
  const bottom = top + height;
  const y = (value: Decimal): number => bottom - height * share(value, upTicks);
  let row = LINE;
  const named = dots.flatMap(({ across }, index) =>
    (names[index] ?? []).map((text) => {
      row += LINE;
      return { x: length(x(across) + GAP), y: length(row - 3), anchor: "start", text };
    }),
  );
  const firstRows = names.map(
    (_, index) => LINE + LINE * names.slice(0, index).reduce((sum, lines) => sum + lines.length, 0),
  );
  return {
    kind,
    id: `curve-${kind}`,
    viewBox: `0 0 ${width} ${length(bottom + 2.6 * LINE)}`,
    describes,
    lines: [
      ...upTicks.map((tick) => line("grid", left, y(tick), right, y(tick))),
      line("axis", left, top, left, bottom),
      line("axis", left, bottom, right, bottom),
      ...dots.map(({ across, up }, index) =>
        line("leader", x(across), (firstRows[index] ?? LINE) + 2, x(across), y(up)),
      ),
    ],
    dots: dots.map(({ across, up }) => ({ x: length(x(across)), y: length(y(up)), r: String(RADIUS) })),
    texts: [
      { x: "0", y: length(LINE - 3), anchor: "start", text: axes.up },
      ...named,
      ...upTicks.map((tick) => ({
        x: length(left - GAP),
        y: length(y(tick) + 0.35 * TYPE),
        anchor: "end",
        text: axes.figure(tick),
      })),
      ...acrossTicks.map((tick) => ({
        x: length(x(tick)),
        y: length(bottom + LINE),
        anchor: "middle",
        text: axes.figure(tick),
      })),
      { x: length(right), y: length(bottom + 2.2 * LINE), anchor: "end", text: axes.across },
    ],
  };
}

function share(value: Decimal, ticks: readonly Decimal[]): number {
  return value.div(ticks.at(-1) ?? 1).toNumber();
}

function line(kind: string, fromX: number, fromY: number, toX: number, toY: number) {
  return { kind, path: `M${length(fromX)} ${length(fromY)}L${length(toX)} ${length(toY)}` };
}

function length(value: number): string {
  return String(Math.round(value * 10) / 10);
}

const MOST_STEPS = 5;
const NICE = ["1", "2", "2.5", "5", "10"].map((each) => new Decimal(each));

/** Round figures from nothing to at least `most`, no more than six of them. */
export function ticksTo(most: Decimal): Decimal[] {
  if (most.lessThanOrEqualTo(0)) return [new Decimal(0), new Decimal(1)];
  const rough = most.div(MOST_STEPS);
  const power = new Decimal(10).pow(rough.log(10).floor());
  const step = (NICE.find((each) => each.times(power).greaterThanOrEqualTo(rough)) ?? new Decimal(10)).times(
    power,
  );
  const count = most.div(step).ceil().toNumber();
  return Array.from({ length: count + 1 }, (_, index) => step.times(index));
}
