import { readdirSync, readFileSync } from "node:fs";
import { request } from "node:http";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Served, serve } from "../support/served.js";

const AFTER = new URL("../../examples/after-service/", import.meta.url);
const FILES = Object.fromEntries(
  ["lunch.yaml", "lunch.plan.json", "lunch.weigh-in.csv"].map((name) => [
    name,
    readFileSync(new URL(name, AFTER), "utf8"),
  ]),
);
const RUNS = Number(process.env.FORGED ?? 400);
const SEED = Number(process.env.FORGED_SEED ?? 20261130);

let served: Served;
beforeAll(async () => {
  served = await serve(FILES);
});
afterAll(() => served.close());

const SCENARIOS = [
  "lunch.yaml",
  "none.yaml",
  "..%2Flunch.yaml",
  "%00",
  "__proto__",
  "lunch.plan.json",
  "%E0%A4%A",
];
const PAGES = [
  "",
  "plan",
  "plan.json",
  "stop",
  "keep",
  "weigh-in",
  "learn",
  "replan",
  "uses",
  "forms",
  "worth",
  "tradeoff",
  "worth/progress",
  "worth/stop",
  "answer-1",
  "answer-1/progress",
  "answer-/stop",
  "pages/glance.html",
  "happened/happened.html",
  "constructor",
  "..%2f..%2fetc%2fpasswd",
];
const OTHERS = [
  "/",
  "/yields/",
  "/yields/leek/",
  "/yields/leek/test?form=__proto__&breakdown[]=1",
  "/forms/x.html",
  "/assets/..%2fx",
  "/test-card/lunch.yaml/",
  "//",
  "/%",
];
const WORDS = [
  "",
  "1",
  "-1",
  "1e999",
  "__proto__",
  "constructor",
  "a\u0000b",
  "\uFFFD",
  "<script>",
  "9".repeat(400),
  "fennel",
  "Lunch",
  "yes",
];
const FIELDS = [
  "key",
  "was",
  "wasReason",
  "actual",
  "reason",
  "initials",
  "plan",
  "before",
  "canBuy",
  "keep",
  "part",
  "weight",
  "use-by",
  "item",
  "wage",
  "seconds",
  "__proto__",
  "constructor",
  "toString",
  "covers: Lunch",
  "a[b]",
  "a[__proto__][c]",
];
const TYPES = [
  "application/x-www-form-urlencoded",
  "application/json",
  "multipart/form-data; boundary=x",
  "text/plain",
  "application/x-www-form-urlencoded; charset=utf-7",
  "",
];

const path = fc.oneof(
  fc
    .tuple(fc.constantFrom(...SCENARIOS), fc.constantFrom(...PAGES))
    .map(([name, page]) => `/scenario/${name}/${page}`),
  fc.constantFrom(...OTHERS),
);
const body = fc.oneof(
  fc
    .array(fc.tuple(fc.constantFrom(...FIELDS), fc.constantFrom(...WORDS)), { maxLength: 12 })
    .map((fields) => new URLSearchParams(fields).toString()),
  fc.string({ maxLength: 200 }),
);
/** No `seconds` that would really plan: forged forms come from elsewhere, or from here with nonsense. */
const forged = fc.record({
  method: fc.constantFrom("GET", "POST", "HEAD", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"),
  path,
  body,
  type: fc.constantFrom(...TYPES),
  origin: fc.constantFrom("own", "own", "own", "http://elsewhere.example", "null", null),
  encoding: fc.constantFrom(null, null, null, "gzip", "x"),
});

type Forged = typeof forged extends fc.Arbitrary<infer T> ? T : never;

/** Sends it as it is, which `fetch` would not, and gives the status and what was answered. */
function send({ method, path: to, body: text, type, origin, encoding }: Forged) {
  const own = served.server.url.slice(0, -1);
  const { port } = new URL(own);
  const hasBody = method !== "GET" && method !== "HEAD" && method !== "TRACE";
  const headers = {
    host: `127.0.0.1:${port}`,
    ...(origin === null ? {} : { origin: origin === "own" ? own : origin }),
    ...(hasBody && type !== "" ? { "content-type": type } : {}),
    ...(hasBody && encoding !== null ? { "content-encoding": encoding } : {}),
  };
  return new Promise<{ status: number; text: string }>((resolve, reject) => {
    const asked = request(
      { port, host: "127.0.0.1", method, path: to, headers, agent: false },
      (response) => {
        let said = "";
        const done = () => resolve({ status: response.statusCode ?? 0, text: said });
        response.setEncoding("utf8").on("data", (more: string) => {
          said += more;
          // What is waited for has no end that a forged request would see.
          if (response.headers["content-type"] === "text/event-stream") response.destroy();
        });
        response.on("end", done).on("close", done);
      },
    );
    asked.on("error", reject).end(hasBody ? text : undefined);
  });
}

describe("requests that no page of ours would send", () => {
  it(
    `are answered without a fault of ours and leave the files as they are, ${RUNS} of them`,
    async () => {
      await fc.assert(
        fc.asyncProperty(forged, async (each) => {
          const { status, text } = await send(each);
          expect(status === 503 || (status >= 200 && status < 500), `${status} ${text.slice(0, 300)}`).toBe(
            true,
          );
          expect(text).not.toMatch(/node_modules|\.[jt]s:\d+|root:x:/);
        }),
        { seed: SEED, numRuns: RUNS, endOnFailure: true },
      );
      expect(readFileSync(join(served.folder, "lunch.yaml"), "utf8")).toBe(FILES["lunch.yaml"]);
      expect(readFileSync(join(served.folder, "lunch.plan.json"), "utf8")).toBe(FILES["lunch.plan.json"]);
      expect(
        readdirSync(served.folder).filter((name) => !(name in FILES) && name !== "yield-tests.csv"),
      ).toEqual([]);
    },
    Math.max(60_000, RUNS * 200),
  );
});
