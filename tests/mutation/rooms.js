/** What is mutated of each room, and the tests that are to notice. */
const ROOMS = {
  quantity: { mutate: ["src/quantity/*.ts"], tests: ["tests/quantity/*.test.ts"] },
  certify: {
    mutate: ["src/allocation/certify.ts"],
    tests: ["tests/allocation/certify.test.ts", "tests/allocation/matrix.test.ts"],
  },
  verify: {
    mutate: ["src/allocation/verify/**/*.ts"],
    tests: ["tests/allocation/rules/*.test.ts", "tests/allocation/verify.test.ts"],
  },
  decide: {
    mutate: ["src/allocation/decide/**/*.ts"],
    tests: ["tests/allocation/{mending,families,portion-weights,repeated-cuts,coarse-scales}.test.ts"],
  },
  ledger: { mutate: ["src/ledger/**/*.ts"], tests: ["tests/ledger/*.test.ts"] },
  "weigh-in": { mutate: ["src/weigh-in/**/*.ts"], tests: ["tests/weigh-in/*.test.ts"] },
  statistics: {
    mutate: ["src/yields/own-tests/**/*.ts", "src/yields/spread.ts"],
    tests: ["tests/yields/*.test.ts"],
  },
  safety: { mutate: ["src/safety/**/*.ts"], tests: ["tests/safety/*.test.ts"] },
  risk: { mutate: ["src/insight/risk/**/*.ts"], tests: ["tests/insight/risk.test.ts"] },
};

const name = process.env.ROOM ?? "quantity";
const room = ROOMS[name];
if (room === undefined) throw new Error(`ROOM=${name}: write one of ${Object.keys(ROOMS).join(", ")}`);

export default room;
