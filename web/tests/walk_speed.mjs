// walk_speed.mjs - how soon the page answers, measured in the browser. Bounds are four times the aims, since machines that test are shared, and more by the
// share by which more wants to run than there are cores; figure, aim and load stand side by side in what is printed.
import { readFileSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { gzipSync } from "node:zlib";
import { must, putLarge, walk, windowOn } from "./house.mjs";

const keyAim_ms = 50;
const paintAim_ms = 500;
const pageAim_bytes = 150_000;
const fontsAim_bytes = 120_000;
const slackNow = () => 4 * Math.max(1, loadavg()[0] / availableParallelism());
const presses = 40;

const load = () => readFileSync("/proc/loadavg", "utf8").split(" ").slice(0, 3).join(" ");
const say = (what, figures, aim, unit) =>
  console.log(
    `        ${what}: ${figures.map(([name, value]) => `${name} ${value.toFixed(0)}`).join(", ")} ${unit}; aim ${aim} ${unit}; load ${load()}`,
  );
const quantile = (values, share) =>
  [...values].sort((one, other) => one - other)[Math.min(values.length - 1, Math.floor(values.length * share))];

/** One key press after the other on the first figure of an amount; answers how long each took until the last number was painted, and two frames on. */
async function keyTimes(page, label, digits) {
  await page
    .getByRole("button", { name: new RegExp(`^${label}: `) })
    .first()
    .click();
  await page.locator("input:focus").waitFor();
  await page.evaluate(() => {
    const strength = () => document.querySelector(".readings li[aria-label^='strength'] b")?.textContent;
    const drawn = document.querySelector(".picture");
    globalThis.nextKey = () => {
      globalThis.answer = new Promise((done, failed) => {
        const field = document.activeElement;
        field.setSelectionRange(0, 1);
        const before = strength();
        let began = 0;
        let moved = false;
        const late = setTimeout(() => failed(new Error(`no answer to a key: strength stays ${before}`)), 8000);
        const watch = new MutationObserver(() => (moved = true));
        watch.observe(drawn, { subtree: true, childList: true, characterData: true, attributes: true });
        document.addEventListener("keydown", (event) => (began = event.timeStamp), { capture: true, once: true });
        const look = () => {
          if (began === 0 || !moved || strength() === before) return requestAnimationFrame(look);
          // This frame shows it: a task behind it runs when it has been painted.
          const channel = new MessageChannel();
          channel.port1.onmessage = () => {
            const painted = performance.now() - began;
            requestAnimationFrame(() => {
              clearTimeout(late);
              watch.disconnect();
              done({ painted, frames: performance.now() - began });
            });
          };
          channel.port2.postMessage(0);
        };
        look();
      });
    };
  });
  const times = [];
  for (let i = 0; i < presses; i++) {
    await page.evaluate(() => globalThis.nextKey());
    await page.keyboard.press(digits[i % digits.length]);
    times.push(await page.evaluate(() => globalThis.answer));
  }
  return times;
}

for (const [what, path, label, digits] of [
  ["a key in Harbour Light", "/bench/Harbour%20Light", "cane spirit.*amount", ["6", "4"]],
  ["a key in the largest formula", "/bench/Long%20Pier", "spirit.*amount", ["7", "3"]],
])
  walk(`speed: ${what}`, async ({ page, go, program }) => {
    if (path.includes("Pier")) await putLarge(program);
    await go(path);
    const times = await keyTimes(page, label, digits);
    const figures = ["painted", "frames"].map((kind) => times.map((one) => one[kind]));
    const p95 = quantile(figures[1], 0.95);
    say(
      `${what}, ${presses} presses`,
      [
        ["painted p50", quantile(figures[0], 0.5)],
        ["p95", quantile(figures[0], 0.95)],
        ["with two frames p50", quantile(figures[1], 0.5)],
        ["p95", p95],
      ],
      keyAim_ms,
      "ms",
    );
    // Held to the median: on a machine that paints without a graphics card and is shared, one frame in twenty may be anything. The aim is for p95.
    const most = keyAim_ms * slackNow();
    const half = quantile(figures[1], 0.5);
    must(half <= most, `half of all presses take ${half.toFixed(0)} ms or more, over ${most.toFixed(0)} ms`);
  });

walk("speed: the bench is painted", async ({ browser, program }) => {
  const cold = await windowOn(browser, program);
  await cold.context.addInitScript(() => {
    globalThis.there = 0;
    const look = () => {
      if (document.querySelector(".readings li b") && document.querySelector(".picture svg")) globalThis.there = performance.now();
      else requestAnimationFrame(look);
    };
    look();
  });
  await cold.go("/bench/Harbour%20Light");
  const first = await cold.page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0);
  const bench = await cold.page.evaluate(() => globalThis.there);
  must(cold.outside.length === 0, "nothing is asked outside");
  await cold.close();
  say(
    "cold start",
    [
      ["first paint", first],
      ["picture and readings", bench],
    ],
    paintAim_ms,
    "ms",
  );
  must(first > 0 && bench > 0 && Math.max(first, bench) <= paintAim_ms * slackNow(), `the bench stands after ${bench.toFixed(0)} ms`);
});

walk("speed: what a cold load of every page weighs", async ({ page, program }) => {
  const fetched = new Set();
  page.on("response", (response) => fetched.add(new URL(response.url()).pathname));
  for (const path of ["/bench/Harbour%20Light", "/bench", "/counter/Harbour%20Light", "/shelf", "/larder", "/larder/lime%20juice", "/kit"])
    await page.goto(`${program.url}${path}`, { waitUntil: "networkidle" });
  const weigh = async (paths) => {
    let sum = 0;
    for (const path of paths) sum += gzipSync(Buffer.from(await (await fetch(program.url + path)).arrayBuffer()), { level: 9 }).length;
    return sum;
  };
  const files = [...fetched].filter((path) => path.includes(".") && !path.startsWith("/api/"));
  const fonts = await weigh(files.filter((path) => path.startsWith("/fonts/")));
  const rest = await weigh(["/", ...files.filter((path) => !path.startsWith("/fonts/"))]);
  console.log(
    `        ${files.length} files: page ${rest} bytes (at most ${pageAim_bytes}), fonts ${fonts} bytes (at most ${fontsAim_bytes}), as of gzip -9`,
  );
  must(rest <= pageAim_bytes, `the page weighs ${rest} bytes`);
  must(fonts <= fontsAim_bytes, `the fonts weigh ${fonts} bytes`);
});
