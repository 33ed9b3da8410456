// walk_counter.mjs - a make at the counter to its end, with a clock that the walk turns on.
import { must, walk, windowOn } from "./house.mjs";

const began = new Date("2026-03-14T16:50:00");
const minute = 60_000;
const at = (later_ms) => {
  const time = new Date(began.getTime() + later_ms);
  return `${String(time.getHours()).padStart(2, "0")}:${String(time.getMinutes()).padStart(2, "0")}`;
};
const go_on = (page) => page.locator(".foot .go");
/** By key: touches that follow each other within 400 ms are drips of a wet hand, and are not counted. */
const press = (button) => button.press("Enter");
const act = (page) => page.getByRole("heading", { level: 2 }).first();
/** Goes on until a step of this name stands there, or the end. */
async function onTo(page, heading, most = 40) {
  for (let i = 0; i < most; i++) {
    if (heading.test(await act(page).textContent()) && (await page.locator("[aria-label='This step'] [role=timer]").count())) return;
    await press(go_on(page));
  }
  throw new Error(`no step ${heading} with a clock in ${most} presses`);
}
const seconds = async (timer) => (await timer.textContent()).split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
const rings = (page, words) => page.getByRole("alert").filter({ hasText: words }).waitFor();
const standsAt = (page) => page.evaluate(() => Date.now());

walk("counter: a window opens, rings, and goes over; back, reload, and the end with its times", async ({ page, program }) => {
  await page.clock.install({ time: began });
  await page.goto(`${program.url}/counter/Harbour%20Light`, { waitUntil: "networkidle" });
  await press(page.getByRole("button", { name: /^orange cloud/ }));
  await page.getByText("still to pour").waitFor();
  must((await act(page).textContent()) === "Weigh in", "the first thing is to weigh in");
  // The scale is over by more than is good enough: it says so, and tare begins anew.
  await page.getByLabel("the scale shows").fill("240");
  await page.getByText("too much by").waitFor();
  await page.getByText("Poured too much? Leave it in").waitFor();
  await page.getByLabel("the scale shows").fill("230");
  await press(go_on(page));
  await page.getByText("still to pour").waitFor();
  await onTo(page, /^Infuse/);
  const timer = page.locator("[aria-label='This step'] [role=timer]");
  const step = page.getByLabel("This step");
  await step.getByText(/opens in/).waitFor();
  const entered = await standsAt(page);

  await page.clock.fastForward(10 * minute);
  await rings(page, "open from now");
  await step.getByText(/^open, (ends|best) within/).waitFor();
  await press(page.getByRole("button", { name: "Heard" }));
  must((await page.locator("[role=alert] .ring").count()) === 0, "a bell that was heard is put away");
  await page.clock.fastForward(minute + 1000);
  await rings(page, "one minute to its end");
  await page.clock.fastForward(minute);
  await rings(page, "its time is over, take it now");
  await step.getByText(/^(over its end|past its best) by/).waitFor();

  // Back to the weigh-in and on again: the clock has not noticed.
  await press(page.getByRole("button", { name: "Step before" }));
  await page
    .getByLabel("Clocks")
    .getByText(/^Infuse/)
    .waitFor();
  await onTo(page, /^Infuse/);
  const gone = ((await standsAt(page)) - entered) / 1000;
  must(Math.abs((await seconds(timer)) - gone) <= 3, `the clock shows ${await timer.textContent()} after ${gone} s`);

  // A reload in the middle: the same step, and the clock goes on.
  await page.reload({ waitUntil: "networkidle" });
  await step.getByRole("timer").waitFor();
  must((await act(page).textContent()).startsWith("Infuse"), "the same step stands there after a reload");
  const later = ((await standsAt(page)) - entered) / 1000;
  must(later >= 12 * 60 && Math.abs((await seconds(timer)) - later) <= 3, `the clock shows ${await timer.textContent()} after ${later} s`);
  must((await page.locator("[role=alert] .ring").count()) === 0, "no bell rings twice");

  await onTo(page, /^Rest/);
  const rested = (await standsAt(page)) - began.getTime();
  await press(go_on(page));
  const end = await page.getByRole("heading", { level: 2 }).first().textContent();
  const times = [at(rested), at(rested + 180 * minute), `Mon ${at(rested + 180 * minute)}`];
  must(
    end.startsWith("orange cloud: made ") &&
      end.includes(`made ${times[0]}`) &&
      end.includes(`may be served from ${times[1]}`) &&
      end.includes(`keeps to ${times[2]}`),
    `the end says “${end}”, not ${times.join(", ")}`,
  );
  await page.getByLabel("Clocks").getByText(/^Rest/).waitFor();
  await press(page.getByRole("button", { name: "Step before" }));
  await page.getByLabel("This step").getByRole("timer").waitFor();
  await press(go_on(page));
  await press(page.getByRole("button", { name: /^Go on: house syrup/ }));
  await page.locator(".top").getByText("house syrup, ahead").waitFor();
});

walk("counter: three hours of sleep ring once; a changed formula leaves what stands on the stove", async ({ browser, page, program }) => {
  await page.clock.install({ time: began });
  await page.goto(`${program.url}/counter/Harbour%20Light`, { waitUntil: "networkidle" });
  await press(page.getByRole("button", { name: /^orange cloud/ }));
  await onTo(page, /^Infuse/);
  await page.clock.fastForward(180 * minute);
  await rings(page, "its time is over");
  await press(page.getByRole("button", { name: "Heard" }));
  await page.clock.fastForward(minute);
  must((await page.locator("[role=alert] .ring").count()) === 0, "one bell for what was slept through");

  const other = await windowOn(browser, program);
  await other.go("/bench/Harbour%20Light");
  await other.page.getByRole("button", { name: /^orange juice.*amount: 230/ }).click();
  await other.page.locator("input:focus").fill("260 g");
  await other.page.keyboard.press("Enter");
  await other.page.locator(".lintel .sub", { hasText: /^saved.*revision 2/ }).waitFor();
  await other.close();
  await page.reload({ waitUntil: "networkidle" });
  must(/infuse/i.test(await act(page).textContent()), "the make goes on");
  await press(page.getByRole("button", { name: "All that is to be made" }).first());
  await page.getByText("The formula was changed since").waitFor();
});

walk("counter: glasses of six, one after the other, to the last", async ({ page, go }) => {
  await go("/counter/Harbour%20Light");
  await page
    .getByRole("button", { name: /^serve|^the serve|glasses/i })
    .first()
    .click();
  for (let glass = 1; glass <= 6; glass++) {
    await go_on(page).waitFor();
    for (let i = 0; i < 20 && (await go_on(page).count()); i++) await press(go_on(page));
    must(/made \d\d:\d\d/.test(await act(page).textContent()), `glass ${glass} is made`);
    const next = page.getByRole("button", { name: `Go on: glass ${glass + 1} of 6` });
    if (glass < 6) await press(next);
    else must((await next.count()) === 0, "six and no more");
  }
});

walk("counter: a drip of water does not go on", async ({ page, go }) => {
  await go("/counter/Harbour%20Light");
  await press(page.getByRole("button", { name: /^orange cloud/ }));
  await page
    .getByText(/^orange juice/)
    .first()
    .waitFor();
  // As fast as a drip: in the page itself, so that the machine's load does not part them.
  await page.evaluate(() => {
    for (let i = 0; i < 3; i++)
      document.querySelector(".foot .go").dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true, detail: 1 }));
  });
  await page
    .getByLabel("This step")
    .getByText(/^honey: /)
    .waitFor();
});
