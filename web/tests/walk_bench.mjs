// walk_bench.mjs - the bench: what a cook does with one formula.
import { must, walk, windowOn } from "./house.mjs";

const bench = "/bench/Harbour%20Light";
/** A written thing, by what it is called: its button, and once pressed its field. */
const pen = (page, label) => page.getByRole("button", { name: new RegExp(`^${label}: `) }).first();
export async function write(page, label, value, key = "Enter") {
  await pen(page, label).click();
  const field = page.locator("input:focus");
  await field.fill(value);
  if (key) await field.press(key);
}
const reading = async (page, name) => {
  const line = page.getByRole("region", { name: "readings" }).getByRole("listitem").filter({ hasText: name }).first();
  return Number((await line.locator("b").first().textContent()).replace("−", "-"));
};
/** Waits until the shelf has what the page shows. */
export const saved = (page) => page.locator(".lintel .sub", { hasText: /^saved/ }).waitFor();
const holds = async (act, says) => {
  for (let tries = 0; tries < 80; tries++) {
    if (await act()) return;
    await new Promise((rest) => setTimeout(rest, 50));
  }
  throw new Error(says);
};

walk("a first visit opens the demo with three hints", async ({ page, go, context }) => {
  await context.addInitScript(() => {
    sessionStorage.setItem("walk.hints", "wanted");
    for (const name of ["pen", "targets", "findings"]) localStorage.removeItem(`bloomset.hint.${name}`);
  });
  await go("/");
  await page.getByRole("heading", { level: 1, name: "Harbour Light" }).waitFor();
  must((await page.locator(".hint").count()) === 3, "three hints stand there");
  for (let i = 0; i < 3; i++) await page.getByRole("button", { name: "Seen" }).first().click();
  must((await page.locator(".hint").count()) === 0, "seen hints go");
});

walk("an amount is edited where it stands and strength answers", async ({ page, go, program }) => {
  await go(bench);
  const before = await reading(page, "strength");
  await pen(page, "cane spirit.*amount").click();
  const field = page.locator("input:focus");
  await field.fill("60 mL");
  await holds(async () => (await reading(page, "strength")) > before + 0.5, "strength rises while one types");
  must((await program.text("Harbour Light")).includes("45 mL cane spirit"), "nothing is kept before Enter");
  await field.press("Enter");
  await holds(async () => (await program.text("Harbour Light")).includes("60 mL cane spirit (40 %vol)"), "kept on the shelf");
  const text = await program.text("Harbour Light");
  must(text.includes("# the leaf melts in what is still hot"), "the author's comments stay");
  await page.keyboard.press("Control+z");
  await holds(async () => Math.abs((await reading(page, "strength")) - before) < 1e-9, "undo brings the drink back");
  await holds(async () => (await program.text("Harbour Light")).includes("45 mL cane spirit"), "undo is saved too");
  await page.keyboard.press("Control+Shift+Z");
  await holds(async () => (await program.text("Harbour Light")).includes("60 mL cane spirit"), "and forth again");
});

walk("Esc leaves an amount as it was; what cannot be read says why", async ({ page, go, program }) => {
  await go(bench);
  const before = await reading(page, "strength");
  await write(page, "cane spirit.*amount", "45 mill", "");
  await page.getByRole("alert").filter({ hasText: /mill/ }).first().waitFor();
  must((await reading(page, "strength")) === before, "the last good picture stays");
  await page.keyboard.press("Escape");
  await holds(async () => (await pen(page, "cane spirit.*amount").textContent()).includes("45"), "the old amount is back");
  must((await program.text("Harbour Light")).includes("45 mL cane spirit"), "the text was not touched");
});

walk("a target is set on a reading, balance finds the amounts, and they are taken", async ({ page, go, program }) => {
  await go(bench);
  await page.getByRole("button", { name: /^target on strength: / }).click();
  await page.locator("input:focus").fill("serve.abv 9.5-10 %");
  await page.keyboard.press("Enter");
  await page.getByRole("region", { name: "readings" }).getByText("under").first().waitFor();
  await page.getByRole("button", { name: "Balance", exact: true }).first().click();
  const panel = page.locator("#panel");
  await panel.getByRole("checkbox", { name: /cane spirit/ }).check();
  await panel.getByRole("checkbox", { name: /lime juice/ }).check();
  await panel.getByRole("checkbox", { name: /ginger soda/ }).check();
  await panel.getByRole("button", { name: "Balance" }).click();
  await panel.getByText("All targets can be met").waitFor();
  await panel.getByRole("button", { name: "Take these amounts" }).click();
  await holds(async () => {
    const strength = await reading(page, "strength");
    return strength >= 9.45 && strength <= 10.05;
  }, "strength lies in its band");
  await holds(async () => !(await program.text("Harbour Light")).includes('"45 mL cane spirit'), "the new amount is on the shelf");
});

walk("impossible wishes are named", async ({ page, go }) => {
  await go(bench);
  await page.getByRole("button", { name: /^target on strength: / }).click();
  await page.locator("input:focus").fill("serve.abv >= 39 %");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Balance", exact: true }).first().click();
  await page.locator("#panel").getByRole("button", { name: "Balance" }).click();
  await page.locator("#panel").getByText("cannot all be had").waitFor({ timeout: 40000 });
  must((await page.locator("#panel .conflict li").count()) >= 1, "the set that contradicts is shown");
});

walk("scatter runs, shows whiskers and what to measure first", async ({ page, go }) => {
  await go(bench);
  await page.getByRole("button", { name: "Scatter", exact: true }).first().click();
  await page.locator("#panel").getByRole("button", { name: "Scatter" }).click();
  await page
    .locator("#panel")
    .getByText(/^measure /i)
    .waitFor({ timeout: 20000 });
  must((await page.locator(".readings .whisker").count()) >= 5, "readings carry whiskers");
});

walk("a stop is seen and its remedy followed", async ({ page, go }) => {
  await go("/bench/Wreck");
  await page.locator(".stops").click();
  const finding = page.locator("article.finding.stop").first();
  await finding.waitFor();
  const says = await finding.locator("h4").textContent();
  await finding.locator("button.press").first().click();
  await finding.getByText(/.+/).first().waitFor();
  must((await finding.locator("ins").count()) === 1, "the change of text is shown before it is kept");
  await finding.getByRole("button", { name: "Change it so" }).click();
  await holds(async () => !(await page.locator("article.finding.stop h4").allTextContents()).includes(says), "the finding is gone");
  await saved(page);
  await page.getByRole("button", { name: /^Undo, 1 steps/ }).waitFor();
});

walk("scaled to 24 serves", async ({ page, go, program }) => {
  await go(bench);
  await page.getByRole("button", { name: "24 serves", exact: true }).click();
  await holds(async () => /serves\s*=\s*24/.test(await program.text("Harbour Light")), "the text says 24");
  await page.getByRole("button", { name: "24 serves", pressed: true }).waitFor();
});

walk("fitted to a one litre bottle", async ({ page, go, program }) => {
  await go(bench);
  await page.getByRole("button", { name: "Fit", exact: true }).first().click();
  await page.locator("#panel").getByLabel("vessel").fill("siphon, one litre");
  await page.locator("#panel").getByRole("button", { name: "Fit" }).click();
  await holds(async () => (await program.text("Harbour Light")).includes("siphon, one litre"), "the part is charged in the litre");
  await page.getByRole("button", { name: /^Undo, 1 steps/ }).waitFor();
});

walk("a formula is made from pasted lines, an unknown thing becomes a larder entry", async ({ page, go, program }) => {
  await go("/bench");
  await page
    .getByLabel("One thing a line, with its amount")
    .fill("200 g lime juice\n3 tbsp honey\n45 mL cane spirit\n30 g quayberry juice");
  const unknown = page.getByLabel("Lines as read").getByText("quayberry juice");
  await unknown.waitFor();
  await page.getByLabel("quayberry juice is like").fill("lime juice");
  await page.getByRole("button", { name: "Add to my larder" }).click();
  await page.getByLabel("Call it").fill("Rope Walk");
  await page.getByRole("button", { name: "Put it on the bench" }).click();
  await page.getByRole("heading", { level: 1, name: "Rope Walk" }).waitFor();
  await holds(async () => (await program.text("Rope Walk"))?.includes("quayberry juice"), "it stands on the shelf");
  must((await reading(page, "strength")) > 0, "its strength is read");
});

walk("an old revision is restored", async ({ page, go, program }) => {
  await go(bench);
  await write(page, "cane spirit.*amount", "50 mL");
  await saved(page);
  await write(page, "cane spirit.*amount", "55 mL");
  await holds(async () => (await program.text("Harbour Light")).includes("55 mL cane"), "two edits on the shelf");
  await page.getByRole("button", { name: "Revisions", exact: true }).click();
  await page
    .locator("#panel")
    .getByRole("button", { name: /^revision 1,/ })
    .click();
  await page
    .locator("#panel")
    .getByRole("region", { name: /beside/ })
    .waitFor();
  await page.locator("#panel").getByRole("button", { name: "Restore revision 1" }).click();
  await holds(async () => (await program.text("Harbour Light")).includes("45 mL cane"), "the first text stands again");
  await holds(
    async () => (await (await fetch(`${program.url}/api/v1/documents/formula/Harbour%20Light/revisions`)).json()).revisions.length === 4,
    "as a new revision",
  );
});

walk("two tabs in conflict keep both versions", async ({ browser, page, go, program }) => {
  await go(bench);
  const other = await windowOn(browser, program);
  await other.go(bench);
  await write(page, "cane spirit.*amount", "50 mL");
  await saved(page);
  await write(other.page, "cane spirit.*amount", "40 mL");
  await other.page.getByText("This formula was changed elsewhere").waitFor();
  const both = other.page.locator(".conflict");
  await both.getByText("50 mL cane").first().waitFor();
  await both.getByText("40 mL cane").first().waitFor();
  must((await program.text("Harbour Light")).includes("50 mL cane"), "nothing was overwritten");
  await both.getByRole("button", { name: "Keep mine on top" }).click();
  await holds(async () => (await program.text("Harbour Light")).includes("40 mL cane"), "settled on top");
  const old = await (await fetch(`${program.url}/api/v1/documents/formula/Harbour%20Light/revisions/2`)).json();
  must(old.text.includes("50 mL cane"), "the other version is a revision");
  await other.close();
});

walk("the program is killed in the middle of an edit and started again", async ({ page, go, program }) => {
  await go(bench);
  await write(page, "cane spirit.*amount", "52 mL");
  await saved(page);
  await pen(page, "lime juice.*amount").click();
  await page.locator("input:focus").fill("17 mL");
  await program.kill();
  await page.keyboard.press("Enter");
  await page.getByRole("alert").filter({ hasText: "does not answer" }).first().waitFor();
  await program.start();
  must((await program.text("Harbour Light")).includes("52 mL cane"), "the last acknowledged edit is there");
  await page.getByRole("button", { name: "Try again" }).click();
  await page.getByRole("alert").waitFor({ state: "detached" });
  await write(page, "lime juice.*amount", "18 mL");
  await holds(async () => (await program.text("Harbour Light")).includes("18 mL lime"), "work goes on");
});

walk("with the outside network cut the page still works", async ({ page, go, context }) => {
  await context.route(
    (url) => url.hostname !== "127.0.0.1",
    (route) => route.abort(),
  );
  await go(bench);
  const before = await reading(page, "strength");
  await write(page, "cane spirit.*amount", "60 mL");
  await holds(async () => (await reading(page, "strength")) > before, "answers come from this machine");
});

walk("a text is edited as a whole and its faults stand at their line", async ({ page, go, program }) => {
  await go(bench);
  await page.getByRole("button", { name: "Text", exact: true }).click();
  const area = page.locator("#panel textarea");
  const text = await area.inputValue();
  await area.fill(text.replace("ginger soda", "ginger sodda"));
  await page
    .locator("#panel")
    .getByText(/ginger sodda/)
    .first()
    .waitFor();
  await area.fill(text.replace("60 mL ginger soda", "50 mL ginger soda"));
  await page.locator("#panel").getByRole("button", { name: /^Keep/ }).click();
  await holds(async () => (await program.text("Harbour Light")).includes("50 mL ginger soda"), "kept");
});
