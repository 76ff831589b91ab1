import { outcomeSmall } from "./outcome-words.js";
import type { PageMaker } from "./page.js";
import { printedWarning, type View, type Warning } from "./view.js";
import { capital } from "./writing.js";

type NoPlan = {
  readonly headline: string;
  readonly what: string;
  readonly reasons: readonly { readonly text: string; readonly checked: string }[];
  /** Where the time was over before all reasons had been looked for. */
  readonly more: string;
  readonly small: string;
  readonly warnings: readonly Warning[];
};

/** Why there is no plan, and what would make one possible. */
export const noPlanPage: PageMaker = { slug: "no-plan", title: "No plan", data: noPlanData };

export function noPlanData(view: View): NoPlan {
  const { plan, writing } = view;
  const { kind, stoppedBy } = plan.outcome;
  const words = {
    infeasible: {
      headline: "This can't be done as it stands",
      what: "No way of buying and cutting keeps every portion, ceiling and limit of the scenario.",
    },
    unbounded: {
      headline: "The scenario has no least",
      what: "Something in it can be had without end and without cost: state a most.",
    },
    failed: {
      headline: "No plan was found",
      what: `That is not a proof that there is none${stoppedBy === null ? "" : `: ${stoppedBy}`}.`,
    },
  };
  return {
    ...(kind === "infeasible" || kind === "unbounded" ? words[kind] : words.failed),
    reasons: plan.reasons.map(({ text, checked }) => ({ text, checked: capital(checked) })),
    more: plan.reasonsCut === true ? "The time was over before all that would do was looked for." : "",
    small: outcomeSmall(plan, writing),
    warnings: plan.warnings.map(printedWarning),
  };
}
