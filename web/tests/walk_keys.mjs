// walk_keys.mjs - from the shelf to the counter without a mouse: after every key something in sight has the focus and shows it.
import { must, walk } from "./house.mjs";

/** What has the focus, and how it shows: an outline or a frame around a field; "" for a place of the page that was gone to, which is its heading's to show. */
const focused = (page) =>
  page.evaluate(() => {
    const node = document.activeElement;
    if (!node || node === document.body) return { what: "body", lost: true, shows: false };
    const style = getComputedStyle(node);
    const framed = node.closest("label")?.querySelector("span");
    const outlined = (one) => one && one.outlineStyle !== "none" && parseFloat(one.outlineWidth) > 0;
    let seen = true;
    for (let up = node; up; up = up.parentElement) {
      const { opacity, visibility, display } = getComputedStyle(up);
      if ((opacity === "0" && !(up === node && framed)) || visibility === "hidden" || display === "none") seen = false;
    }
    const box = (style.opacity === "0" && framed ? framed : node).getBoundingClientRect();
    const place = node.matches("main, #panel");
    return {
      what: `${node.tagName.toLowerCase()} ${node.getAttribute("aria-label") ?? node.textContent?.trim().slice(0, 50) ?? ""} ${node.className}`,
      label: (node.getAttribute("aria-label") ?? node.closest("label")?.textContent ?? node.textContent ?? "").trim(),
      lost: false,
      place,
      shows:
        seen &&
        box.width > 1 &&
        box.height > 1 &&
        (place ||
          outlined(style) ||
          (style.boxShadow !== "none" && node.matches("input, textarea")) ||
          outlined(framed && getComputedStyle(framed))),
      inSight: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
    };
  });

/** Presses, waits for the page to settle on something, and holds that the focus is there and shows. */
async function press(page, key, says = key) {
  await page.keyboard.press(key);
  await stands(page, `after ${says}`);
}
async function stands(page, when) {
  let now;
  for (let tries = 0; tries < 60; tries++) {
    now = await focused(page);
    if (!now.lost && now.shows && now.inSight) return now;
    await page.waitForTimeout(50);
  }
  throw new Error(
    now.lost ? `${when}: the focus is lost` : `${when}: the focus on “${now.what}” is not ${now.inSight ? "shown" : "in sight"}`,
  );
}
/** Tab until what has focus is called so. */
async function tabTo(page, label, most = 160, key = "Tab") {
  for (let i = 0; i < most; i++) {
    if (label.test((await focused(page)).label ?? "")) return;
    await page.keyboard.press(key);
    await stands(page, `after ${key} ${i + 1} on the way to ${label}`);
  }
  throw new Error(`no ${label} within ${most} presses of ${key}`);
}
async function isOn(page, label, says) {
  let now;
  for (let tries = 0; tries < 80; tries++) {
    now = await focused(page);
    if (label.test(now.label ?? "")) return;
    await page.waitForTimeout(50);
  }
  throw new Error(`${says}: the focus is on “${now.what}”`);
}
const strength = async (page) => Number(await page.locator(".readings li[aria-label^='strength'] b").textContent());
const holds = async (act, says) => {
  for (let tries = 0; tries < 160; tries++) {
    if (await act()) return;
    await new Promise((rest) => setTimeout(rest, 50));
  }
  throw new Error(says);
};

walk("keys: from the shelf to the counter without a mouse", async ({ page, go, program }) => {
  await go("/shelf");
  await page.getByRole("searchbox").waitFor();
  await stands(page, "on the shelf");
  await tabTo(page, /^Harbour Light$/);
  await press(page, "Enter", "opening a formula");
  await page.getByRole("heading", { level: 1, name: "Harbour Light" }).waitFor();
  await page.locator(".readings").waitFor();

  // An amount: arrows step it, Esc leaves it, Enter keeps it; the focus stays on it.
  await tabTo(page, /^cane spirit.*, amount: /);
  await press(page, "Enter", "opening an amount");
  const before = await strength(page);
  for (let i = 0; i < 2; i++) await press(page, "Shift+ArrowUp", "a step of ten");
  await holds(async () => (await strength(page)) > before + 0.5, "strength answers while one steps");
  await press(page, "Escape", "leaving an amount");
  await holds(async () => (await strength(page)) === before, "as it was");
  await isOn(page, /^cane spirit.*amount: 45 mL/, "Esc goes back to the amount");
  await press(page, "Enter", "opening it again");
  await press(page, "ArrowUp");
  await press(page, "ArrowUp");
  await press(page, "Enter", "keeping an amount");
  await holds(async () => (await program.text("Harbour Light")).includes("47 mL cane spirit"), "two steps up are kept");
  await isOn(page, /^cane spirit.*amount: 47 mL/, "Enter goes back to the amount");

  // A target, balance, and the amounts taken.
  await tabTo(page, /^target on strength: /);
  await press(page, "Enter", "opening a target");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("serve.abv 9.8-10.2 %");
  await press(page, "Enter", "keeping a target");
  await isOn(page, /^target on strength: serve.abv 9.8/, "Enter goes back to the target");
  await press(page, "b", "B for balance");
  await page.getByRole("heading", { name: /^Balance/ }).waitFor();
  await tabTo(page, /^cane spirit/);
  await press(page, "Space", "freeing the spirit");
  await tabTo(page, /^ginger soda/);
  await press(page, "Space", "freeing the soda");
  await tabTo(page, /^Balance$/);
  await press(page, "Enter", "balancing");
  await page.locator("#panel").getByText("All targets can be met").waitFor({ timeout: 20000 });
  await stands(page, "when the amounts are found");
  await tabTo(page, /^Take these amounts$/);
  await press(page, "Enter", "taking the amounts");
  await holds(async () => !(await program.text("Harbour Light")).includes("47 mL cane spirit"), "the amounts are on the shelf");
  await stands(page, "with the amounts taken");
  await press(page, "Control+z", "undo");
  await holds(async () => (await program.text("Harbour Light")).includes("47 mL cane spirit"), "undo by key");
  await press(page, "Escape", "closing a panel");
  must((await page.locator("#panel").count()) === 0, "Esc closes a panel");

  // To the counter, and two steps there.
  await page.keyboard.press("g");
  await press(page, "c", "G C");
  await page.getByRole("heading", { name: "What will you make?" }).waitFor();
  await stands(page, "at the counter");
  await tabTo(page, /^orange cloud/);
  await press(page, "Enter", "beginning a course");
  await page.getByText("still to pour").waitFor();
  const bar = page.locator(".foot .go");
  const heading = page.locator("h2.act");
  for (let step = 0; step < 2; step++) {
    const was = await heading.textContent();
    await tabTo(page, /go on$|Done$/);
    for (let i = 0; i < 8 && (await heading.textContent()) === was; i++) {
      await press(page, "Enter", "going on");
      must(await bar.evaluate((node) => node === document.activeElement), "the bar keeps the focus");
    }
    must((await heading.textContent()) !== was, "a step further");
  }
  await tabTo(page, /^Step before$/, 20, "Shift+Tab");
  await press(page, "Enter", "going back");
  await page.keyboard.press("g");
  await press(page, "b", "G B");
  await page.getByRole("heading", { level: 1, name: "Harbour Light" }).waitFor();
  await page.locator(".readings").waitFor();
});

walk("keys: a new wish is typed to its end, and Enter waits for the answer", async ({ page, go, program }) => {
  await go("/bench/Harbour%20Light");
  await page.locator(".readings").waitFor();
  await tabTo(page, /^a target on temperature: /);
  await press(page, "Enter", "opening a wish");
  await page.keyboard.press("Control+a");
  for (const letter of "serve.temperature <= 5 C") await press(page, letter, `“${letter}”`);
  await page.waitForTimeout(600);
  must((await page.locator("input:focus").inputValue()) === "serve.temperature <= 5 C", "the field stays while its wish is shown");
  await press(page, "Enter", "keeping the wish");
  await holds(async () => (await program.text("Harbour Light")).includes("serve.temperature <= 5 C"), "the wish is kept");
  await stands(page, "with a wish more");
  // A fault of half a word is not the fault of the whole: typed at once and kept.
  await tabTo(page, /^lime juice, amount: /, 200, "Shift+Tab");
  await press(page, "Enter", "opening an amount");
  await page.keyboard.type("18 mL");
  await press(page, "Enter", "keeping an amount");
  await holds(async () => (await program.text("Harbour Light")).includes("18 mL lime juice"), "typed fast and kept");
  // What cannot be read stays open on Enter, with its reason.
  await press(page, "Enter", "opening it again");
  await page.keyboard.type("18 mull");
  await press(page, "Enter", "trying to keep it");
  await page.getByRole("alert").filter({ hasText: "mull" }).first().waitFor();
  must((await page.locator("input:focus").inputValue()) === "18 mull", "what was typed is not lost");
  await press(page, "Escape");
});

walk("keys: a finding is walked to and mended, and undone", async ({ page, go, program }) => {
  await go("/bench/Wreck");
  await page.locator(".readings").waitFor();
  const text = await program.text("Wreck");
  const heads = () => page.locator("article.finding.stop h4").allTextContents();
  await press(page, "f", "F");
  const all = await heads();
  must(all.length > 0, "the stops are shown");
  for (let i = 0; i < 8 && (await page.locator("article.finding:focus button.press").count()) === 0; i++) await press(page, "f", "F");
  must((await page.locator("article.finding:focus button.press").count()) > 0, "a finding with a remedy is reached by F");
  await press(page, "Enter", "its first remedy");
  await page.getByRole("button", { name: "Change it so" }).waitFor();
  await tabTo(page, /^Change it so$/);
  await press(page, "Enter", "changing it so");
  await holds(async () => (await program.text("Wreck")) !== text, "the change is on the shelf");
  await stands(page, "with the finding gone");
  await press(page, "f", "F again");
  await press(page, "Control+z", "undo");
  await holds(async () => (await program.text("Wreck")) === text, "undone");
  await stands(page, "after undo");
});

walk("keys: lines and steps are added, moved and taken out", async ({ page, go, program }) => {
  await go("/bench/Harbour%20Light");
  await page.locator(".readings").waitFor();
  const text = () => program.text("Harbour Light");
  await tabTo(page, /^lime juice, amount: /);
  await press(page, "Alt+ArrowUp", "moving a line up");
  await holds(async () => /"15 mL lime juice", "15 mL orange juice"/.test(await text()), "it stands one place higher");
  await isOn(page, /^lime juice, amount/, "the focus goes with the line");
  await press(page, "Delete", "taking a line out");
  await holds(async () => !(await text()).includes("15 mL lime juice"), "it is out");
  await stands(page, "with the line out");
  await press(page, "n", "N");
  await page.keyboard.type("10 mL lemon juice");
  await press(page, "Enter", "keeping a new line");
  await holds(async () => (await text()).includes("10 mL lemon juice"), "it is in");
  await stands(page, "with a new line");
  await press(page, "t", "T");
  await page.locator(".ledgerbox:not(.hush)").waitFor();
  await stands(page, "in the table");
  await press(page, "t", "T again");
  await page.locator(".picture").waitFor();
});
