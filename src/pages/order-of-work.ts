import type { Plan } from "../contract/index.js";
import { addDays, type Handling, type Service } from "../kitchen/index.js";
import { type Work, wholeMinutes, worksBefore } from "./jobs.js";
import type { PageMaker } from "./page.js";
import { latestStarts, type Task } from "./schedule.js";
import type { View } from "./view.js";
import { capital, counted } from "./writing.js";

type OrderOfWork = { readonly services: readonly ServiceWork[] };

type ServiceWork = {
  readonly service: string;
  readonly when: string;
  readonly sum: string;
  readonly whoHead: string;
  readonly startHead: string;
  readonly tasks: readonly TaskRow[];
  readonly kept: readonly string[];
};

type TaskRow = {
  readonly number: string;
  readonly start: string;
  readonly title: string;
  readonly about: string;
  readonly who: string;
  readonly equipment: string;
  readonly minutes: string;
  readonly after: string;
};

/** A task with what its row says. Work makes lots of parts; a dish uses them. */
interface Listed extends Task {
  readonly title: string;
  readonly about: string;
  readonly equipment: string;
  readonly stated: boolean;
}

const BOARDS: Readonly<Record<Handling, string>> = {
  plant: "board for plants",
  egg: "bowl",
  fish: "board for raw fish",
  meat: "board for raw meat",
  poultry: "board for raw poultry",
};
/** Starts are printed to five minutes, the earlier. */
const CLOCK_STEP = 5;
const DAY = 1440;

/** Who does what when, before each service: boards in their order, then the dishes that cook longest by themselves. */
export const orderOfWorkPage: PageMaker = {
  slug: "order-of-work",
  title: "Order of work",
  data: orderOfWorkData,
};

export function orderOfWorkData(view: View): OrderOfWork {
  return {
    services: view.scenario.services.flatMap((service) => {
      const tasks = tasksBefore(service, view);
      const kept = keptFor(service, view);
      return tasks.length + kept.length === 0 ? [] : [serviceWork(service, tasks, kept, view)];
    }),
  };
}

function serviceWork(
  service: Service,
  tasks: readonly Listed[],
  kept: readonly string[],
  view: View,
): ServiceWork {
  const { writing } = view;
  const slots = latestStarts(tasks, service.cooks);
  const inOrder = tasks
    .map((task, index) => ({ task, index, slot: slots[index] ?? { start: 0, cook: 0 } }))
    .sort((a, b) => b.slot.start - a.slot.start || a.index - b.index);
  const numbers = new Map(inOrder.map(({ index }, place) => [index, place + 1]));
  return {
    service: service.name,
    when: [writing.date(service.date), service.at === null ? "" : `first plate at ${clock(service.at)}`]
      .filter((text) => text !== "")
      .join(", "),
    sum: sumWords(service, tasks, inOrder[0]?.slot.start ?? 0, view),
    startHead: service.at === null ? "Start before it by" : "Start by",
    whoHead: service.cooks === 1 ? "Who" : "Cook",
    tasks: inOrder.map(({ task, index, slot }) => ({
      number: String(numbers.get(index)),
      start: startText(service, slot.start, view),
      title: task.title,
      about: task.about,
      who: service.cooks === 1 ? "" : String(slot.cook + 1),
      equipment: task.equipment,
      minutes: task.stated ? writing.count(task.minutes) : "",
      after: [...task.after]
        .map((needed) => numbers.get(needed) ?? 0)
        .sort((a, b) => a - b)
        .join(", "),
    })),
    kept,
  };
}

/** The tasks in an order in which each comes after what it needs: boards, then dishes, those that cook longest first. */
function tasksBefore({ name }: Service, view: View): Listed[] {
  const works = worksBefore(name, view);
  const cookings = view.plan.dishes
    .filter(({ service, portions }) => service === name && portions > 0)
    .map((cooking) => dishTask(cooking, works, view))
    .sort((a, b) => b.unattended - a.unattended);
  return [...works.map((work, index) => workTask(work, works.slice(0, index))), ...cookings];
}

function workTask({ heading, takes, handling, cutFor, minutes }: Work, before: readonly Work[]): Listed {
  const [how = ""] = takes.length === 0 ? [] : heading.steps;
  const unattended = minutesOf(how);
  return {
    title: heading.title,
    about: unattended === 0 ? "" : `then ${duration(unattended)} by itself`,
    equipment: takes.length === 0 ? BOARDS[handling] : "",
    minutes: minutes ?? 0,
    stated: minutes !== null,
    unattended,
    after: [...new Set(takes.flatMap((part) => makersOf(part, cutFor, before)))],
  };
}

function dishTask(cooking: Plan["dishes"][number], works: readonly Work[], view: View): Listed {
  const { scenario, plan, writing } = view;
  const dish = scenario.dishes.find(({ name }) => name === cooking.dish);
  const minutes = wholeMinutes(
    dish?.minutesPerBatch,
    dish?.batch == null ? cooking.portions : Math.ceil(cooking.portions / dish.batch.portions),
  );
  const time = dish?.cooking.time ?? null;
  const after = plan.goings
    .filter((going) => going.dish === cooking.dish && going.service === cooking.service)
    .flatMap(({ part, cutFor }) => makersOf(part, cutFor ?? "", works));
  return {
    title: `${capital(cooking.dish)}, ${counted(writing, cooking.portions, "portion")}`,
    about: time === null ? "" : `then ${time} by itself`,
    equipment: dish?.cooking.equipment ?? "",
    minutes: minutes ?? 0,
    stated: minutes !== null,
    unattended: time === null ? 0 : minutesOf(time),
    after: [...new Set(after)],
  };
}

/** Indexes of the works that give this lot. */
function makersOf(part: string, cutFor: string, works: readonly Work[]): number[] {
  return works.flatMap((work, index) =>
    work.cutFor === cutFor && work.parts.some((each) => each.part === part) ? [index] : [],
  );
}

function keptFor({ name }: Service, { plan, writing }: View): string[] {
  return plan.dishes.flatMap(({ dish, service, served }) =>
    served
      .filter((sitting) => sitting.service === name && service !== name && sitting.portions > 0)
      .map(({ portions }) => `${counted(writing, portions, "portion")} of ${dish}, kept from ${service}`),
  );
}

function sumWords({ cooks, at }: Service, tasks: readonly Listed[], earliest: number, view: View): string {
  const minutes = tasks.reduce((sum, task) => sum + task.minutes, 0);
  const silent = tasks.filter(({ stated }) => !stated).length;
  const people = cooks === 1 ? "one cook" : `${view.writing.count(cooks)} cooks`;
  return [
    `Hands-on ${duration(minutes)} for ${people}.`,
    at === null ? `The first task starts ${duration(earliest)} before the service.` : "",
    silent === 0 ? "" : `${counted(view.writing, silent, "task")} without stated minutes not counted.`,
  ]
    .filter((text) => text !== "")
    .join(" ");
}

/** The clock time, with the weekday where it is the day before; without a clock, the time before the service. */
function startText({ at, date }: Service, before: number, { writing }: View): string {
  const rounded = (minutes: number) => Math.floor(minutes / CLOCK_STEP) * CLOCK_STEP;
  if (at === null) return duration(Math.ceil(before / CLOCK_STEP) * CLOCK_STEP);
  const start = rounded(at - before);
  const days = Math.floor(start / DAY);
  if (days === 0) return clock(start);
  return `${writing.shortDate(addDays(date, days))} ${clock(start - days * DAY)}`;
}

function clock(minutes: number): string {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function duration(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  const words = [hours === 0 ? "" : `${hours}\u00a0h`, rest === 0 ? "" : `${rest}\u00a0min`];
  return words.filter((text) => text !== "").join(" ") || "0\u00a0min";
}

/** Minutes in a time as a recipe writes it, "1 h 30 min", "simmer 4 h", "25 to 30 min": the most of a range. */
function minutesOf(time: string): number {
  const most = time.replace(/[\d.]+\s*(?:to|-|–)\s*(?=[\d.]+)/g, "");
  const hours = /([\d.]+)\s*h(?:ours?)?\b/i.exec(most)?.[1] ?? "0";
  const minutes = /([\d.]+)\s*min/i.exec(most)?.[1] ?? "0";
  return Math.ceil(Number(hours) * 60 + Number(minutes));
}
