import { describe, expect, it } from "vitest";
import { orderOfWorkData } from "../../src/pages/order-of-work.js";
import { viewOf } from "../../src/pages/view.js";
import { Decimal } from "../../src/quantity/index.js";
import { hallPlan } from "../support/fixtures/hall-plan.js";
import { hallScenario } from "../support/fixtures/hall-scenario.js";

const timed = {
  ...hallScenario,
  dishes: hallScenario.dishes.map((dish) => ({ ...dish, minutesPerBatch: new Decimal("30") })),
};
const { services } = orderOfWorkData(viewOf(hallPlan, timed));

describe("order of work", () => {
  it("numbers the tasks of a service in the order they start, each after what it needs", () => {
    for (const { tasks } of services) {
      expect(tasks.map(({ number }) => number)).toEqual(tasks.map((_, index) => String(index + 1)));
      for (const { number, after } of tasks)
        for (const needed of after.split(", ").filter((text) => text !== ""))
          expect(Number(needed)).toBeLessThan(Number(number));
    }
  });

  it("has every cut, step and cooking of the plan once, what one step takes of a day's parts being one task", () => {
    const steps = new Set(hallPlan.preps.map(({ step, service, cutFor }) => `${step} ${service} ${cutFor}`));
    const cooked = hallPlan.dishes.filter(({ portions }) => portions > 0);
    expect(services.flatMap(({ tasks }) => tasks)).toHaveLength(
      hallPlan.cuts.length + steps.size + cooked.length,
    );
  });

  it("says who, when and with what, and leaves room where no minutes are stated", () => {
    const [first] = services;
    expect(first?.when).toMatch(/first plate at 19:00$/);
    expect(first?.sum).toMatch(/^Hands-on .+ for one cook\./);
    for (const { start } of first?.tasks ?? [])
      expect(start).toMatch(/^(\w+\s\d+\s\w+ |\w+,\s\d+\s\w+ )?\d\d:\d\d$/);
    const bare = orderOfWorkData(viewOf(hallPlan, hallScenario)).services[0];
    expect(bare?.tasks.some(({ minutes }) => minutes === "")).toBe(true);
    expect(bare?.sum).toMatch(/without stated minutes not counted/);
  });

  it("counts back from the service where no time of day is stated", () => {
    const unclocked = { ...timed, services: timed.services.map((each) => ({ ...each, at: null })) };
    const [first] = orderOfWorkData(viewOf(hallPlan, unclocked)).services;
    expect(first?.startHead).toBe("Start before it by");
    for (const { start } of first?.tasks ?? []) expect(start).toMatch(/^(\d+\sh)?\s?(\d+\smin)?$/);
  });
});
