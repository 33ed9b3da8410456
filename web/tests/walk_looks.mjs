// walk_looks.mjs - every page at four widths, by day and by night: nothing clipped, nothing over another, targets to be hit, and nothing that axe-core finds.
import { readFileSync } from "node:fs";
import { must, putLarge, walk, windowOn } from "./house.mjs";

const pages = {
  "bench of Harbour Light": ["/bench/Harbour%20Light", ".readings li"],
  "bench of Wreck": ["/bench/Wreck", ".readings"],
  "bench of the largest": ["/bench/Long%20Pier", ".readings li"],
  "blank bench": ["/bench", "#blank-lines"],
  counter: ["/counter/Harbour%20Light", "button.course"],
  shelf: ["/shelf", ".shelf li"],
  larder: ["/larder", ".larder .say"],
  "one thing": ["/larder/lime%20juice", ".larder .acts"],
  kit: ["/kit", "main h3"],
};
const panels = ["Fit", "Balance", "Scatter", "Findings", "Revisions", "Text"];
const widths = [
  [390, 844],
  [820, 1180],
  [1280, 900],
  [1680, 1000],
];
const axeSource = readFileSync(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");

/** What is wrong with how the page is laid out, in words. Runs in the page. */
function looked() {
  const wrong = [];
  const short = (text) => `“${text.trim().replace(/\s+/g, " ").slice(0, 40)}”`;
  if (document.documentElement.scrollWidth > innerWidth)
    wrong.push(`the page scrolls sideways: ${document.documentElement.scrollWidth} px`);

  const shown = (node) => {
    for (let up = node; up; up = up.parentElement) {
      if (up.classList.contains("hush") || up.classList.contains("tools")) return false;
      const style = getComputedStyle(up);
      if (style.display === "none" || style.visibility === "hidden" || style.opacity === "0") return false;
      if (up.tagName === "DETAILS" && !up.open && !node.closest("summary")) return false;
    }
    return true;
  };
  // Where an element that scrolls or clips lets its content be seen.
  const seenWithin = (node, box) => {
    let { left, top, right, bottom } = box;
    for (let up = node.parentElement; up && up !== document.body; up = up.parentElement) {
      const style = getComputedStyle(up);
      if (style.overflowX === "visible" && style.overflowY === "visible") continue;
      const frame = up.getBoundingClientRect();
      [left, top] = [Math.max(left, frame.left), Math.max(top, frame.top)];
      [right, bottom] = [Math.min(right, frame.right), Math.min(bottom, frame.bottom)];
    }
    return { left, top, right, bottom };
  };
  // What lies over the page on purpose: it stands in front, with a ground of its own.
  const fixed = (node) => {
    for (let up = node; up && up !== document.body; up = up.parentElement)
      if (["fixed", "sticky"].includes(getComputedStyle(up).position)) return true;
    return false;
  };

  const texts = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const clipped = new Set();
  while (walker.nextNode()) {
    const text = walker.currentNode;
    const node = text.parentElement;
    if (!text.data.trim() || !node || ["SCRIPT", "STYLE", "OPTION", "TEXTAREA"].includes(node.tagName) || !shown(node)) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    for (let up = node; up && up !== document.body; up = up.parentElement) {
      const style = getComputedStyle(up);
      if (!["hidden", "clip"].includes(style.overflowX) || clipped.has(up)) continue;
      if (up.scrollWidth > up.clientWidth + 1 || up.scrollHeight > up.clientHeight + 4) {
        clipped.add(up);
        const told = up.closest("[title]")?.title || up.closest("[aria-label]")?.getAttribute("aria-label");
        if (!(style.textOverflow === "ellipsis" || style.webkitLineClamp !== "none") || !told)
          wrong.push(`${short(up.textContent)} is clipped, ${up.clientWidth} of ${up.scrollWidth} px, and no title says it`);
      }
    }
    if (fixed(node)) continue;
    for (const rect of range.getClientRects()) {
      const box = seenWithin(node, rect);
      if (box.right - box.left > 1 && box.bottom - box.top > 1) texts.push({ node, words: text.data, ...box });
      if (rect.left < -1) wrong.push(`${short(text.data)} begins left of the page`);
    }
  }
  // A line box is taller than its letters: two may touch by a fifth of the smaller.
  texts.sort((one, other) => one.top - other.top);
  for (let i = 0; i < texts.length; i++) {
    const one = texts[i];
    for (let j = i + 1; j < texts.length && texts[j].top < one.bottom; j++) {
      const other = texts[j];
      const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      const high = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
      const least = Math.min(one.bottom - one.top, other.bottom - other.top);
      if (wide > 1.5 && high > Math.max(3, least * 0.3)) wrong.push(`${short(one.words)} lies over ${short(other.words)}`);
    }
  }
  // Targets of 24 px, or 24 px of room around the middle (WCAG 2.5.8); words within a line are as high as the line.
  const targets = [...document.querySelectorAll("a[href], button, input, select, textarea, summary")].filter(
    (node) => shown(node) || node.type === "radio",
  );
  const boxes = targets.map((node) => {
    const seen = node.matches("input[type=radio], input[type=checkbox]") ? (node.closest("label") ?? node) : node;
    return { node, box: seen.getBoundingClientRect() };
  });
  for (const { node, box } of boxes) {
    if (box.width === 0 || (box.width >= 23.5 && box.height >= 23.5)) continue;
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
    const near = boxes.find(({ node: other, box: its }) => {
      if (other === node || its.width === 0 || other.contains(node) || node.contains(other)) return false;
      const dx = Math.max(its.left - x, 0, x - its.right);
      const dy = Math.max(its.top - y, 0, y - its.bottom);
      return Math.hypot(dx, dy) < 11.5;
    });
    const inline =
      getComputedStyle(node).display === "inline" ||
      (node.matches(".num") && node.closest("p, .sum, .cond, .under, .words, .target")) ||
      node.matches(".turn");
    if (near && !inline)
      wrong.push(
        `${short(node.getAttribute("aria-label") ?? node.textContent)} is ${box.width.toFixed(0)} × ${box.height.toFixed(0)} px and near ${short(near.node.getAttribute("aria-label") ?? near.node.textContent)}`,
      );
  }
  return [...new Set(wrong)];
}

/** Controls that a thumb presses all the time. Runs in the page. */
function coarse() {
  const main =
    "nav.places a, nav.stores a, .lintel .tool, .panels .tool, .bench ~ .press, .panel .press, .flow > .press, .blank .press, .head .press, .sv, .foot .b, .course, label.kind, button.more";
  return [...document.querySelectorAll(main)]
    .map((node) => ({ node, box: node.getBoundingClientRect() }))
    .filter(({ node, box }) => box.width > 0 && !node.closest(".hush") && box.height < 43.5)
    .map(
      ({ node, box }) =>
        `“${(node.getAttribute("aria-label") ?? node.textContent).trim().slice(0, 30)}” is ${box.height.toFixed(0)} px high`,
    );
}

async function visit({ page }, program, [path, there]) {
  await page.goto(program.url + path);
  await page.locator(there).first().waitFor();
  await settled(page);
}
// By night only the colours are other: there it looks at nothing else.
async function axed(page, light) {
  await page.evaluate(axeSource);
  const rules = light === "dark" ? { runOnly: { type: "rule", values: ["color-contrast"] } } : {};
  const { violations } = await page.evaluate((only) => globalThis.axe.run(document, { resultTypes: ["violations"], ...only }), rules);
  return violations
    .filter((one) => one.impact === "serious" || one.impact === "critical")
    .map(
      (one) =>
        `${one.id} at ${one.nodes
          .map((node) => node.target.join(" "))
          .slice(0, 3)
          .join(", ")}: ${one.nodes[0]?.any[0]?.message ?? one.help}`,
    );
}
const settled = async (page) => {
  await page.evaluate(() => document.fonts.ready);
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
};
const all = (found) => {
  must(
    found.length === 0,
    `\n          ${found.slice(0, 40).join("\n          ")}${found.length > 40 ? `\n          and ${found.length - 40} more` : ""}`,
  );
};

for (const [width, height] of widths)
  walk(`looks: every page at ${width} px`, async ({ browser, program }) => {
    await putLarge(program);
    const found = [];
    const touch = width <= 820;
    const window = await windowOn(browser, program, { width, height, hasTouch: touch, isMobile: touch });
    for (const [name, place] of Object.entries(pages)) {
      await visit(window, program, place);
      for (const wrong of await window.page.evaluate(looked)) found.push(`${name}: ${wrong}`);
      if (touch) for (const wrong of await window.page.evaluate(coarse)) found.push(`${name}: ${wrong}`);
    }
    await visit(window, program, pages["bench of Harbour Light"]);
    for (const panel of panels) {
      await window.page
        .locator(".panels")
        .getByRole("button", { name: new RegExp(`^${panel}`) })
        .press("Enter");
      await window.page.locator("#panel-head").waitFor();
      await settled(window.page);
      for (const wrong of await window.page.evaluate(looked)) found.push(`panel ${panel}: ${wrong}`);
    }
    await window.page.keyboard.press("Escape");
    await window.page.keyboard.press("t");
    await settled(window.page);
    for (const wrong of await window.page.evaluate(looked)) found.push(`picture or table: ${wrong}`);
    must(window.errors.length === 0, window.errors.join(" | "));
    await window.close();
    all(found);
  });

for (const light of ["light", "dark"])
  walk(`looks: axe-core finds nothing serious, ${light}`, async ({ browser, program }) => {
    const found = [];
    const window = await windowOn(browser, program, { width: 1280, height: 900, colorScheme: light, bypassCSP: true });
    for (const [name, place] of Object.entries(pages).filter(([name]) => !name.includes("largest"))) {
      await visit(window, program, place);
      for (const wrong of await axed(window.page, light)) found.push(`${name}: ${wrong}`);
    }
    await visit(window, program, pages["bench of Harbour Light"]);
    for (const panel of panels) {
      await window.page
        .locator(".panels")
        .getByRole("button", { name: new RegExp(`^${panel}`) })
        .press("Enter");
      await window.page.locator("#panel-head").waitFor();
      for (const wrong of await axed(window.page, light)) found.push(`panel ${panel}: ${wrong}`);
    }
    await window.page.keyboard.press("t");
    await settled(window.page);
    for (const wrong of await axed(window.page, light)) found.push(`table: ${wrong}`);
    await window.page.setViewportSize({ width: 390, height: 844 });
    await settled(window.page);
    for (const wrong of await axed(window.page, light)) found.push(`narrow: ${wrong}`);
    await window.close();
    all(found);
  });
