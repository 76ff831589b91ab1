import { wordings } from "../reading/index.js";

export const words = wordings("kitchen-files", {
  noPlanKept: (remedy: string) => ({ what: "no plan is kept here", remedy }),
  noWeighIn: (remedy: string) => ({ what: "there is no weigh-in here", remedy }),
  ownTestsUnreadable: () => ({
    what: "the kitchen's own yield tests may not be read",
    remedy: "Make it a file that may be read, or move it away",
  }),
  isScenario: () => ({
    what: "this is a scenario, and no butcher's test or cooking-loss test",
    remedy: "Plan it with `plan`, or name a file with such a test",
  }),
  isTestCard: () => ({
    what: "this is a butcher's test or a cooking-loss test, and no scenario",
    remedy: "Work it out with `butchers-test` or `cooking-loss`",
  }),
  isFolder: (kind: string) => ({ what: "this is a folder", remedy: `Write the path of ${kind} in it` }),
  noFile: (kind: string) => ({
    what: "there is no such file, or it may not be read",
    remedy: `Write the path of ${kind}`,
  }),
});
