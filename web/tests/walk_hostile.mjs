// walk_hostile.mjs - what an ill-willed text, a full disk and a foreign page can do: nothing but be shown.
import { spawnSync } from "node:child_process";
import { must, put, walk } from "./house.mjs";

const long = "x".repeat(10_000);
const hostile = [
  "<script>globalThis.trapped = 1</script>",
  '<img src=x onerror="globalThis.trapped = 1">',
  "javascript:globalThis.trapped=1",
  '"><svg onload=globalThis.trapped=1>',
  "{{constructor.constructor('globalThis.trapped=1')()}}",
  "45\u202e\u2066 mL\u200b\u200d\ufeff lime",
  long,
];
const holds = async (act, says) => {
  for (let tries = 0; tries < 160; tries++) {
    if (await act()) return;
    await new Promise((rest) => setTimeout(rest, 50));
  }
  throw new Error(says);
};
/** Springs at every dialog, and tells at the end whether a script of the text ran or an element of it was made. */
function trap(page) {
  let dialogs = 0;
  page.on("dialog", (dialog) => {
    dialogs += 1;
    void dialog.dismiss();
  });
  return async (when) => {
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    must((await page.evaluate(() => globalThis.trapped)) === undefined, `${when}: a script ran`);
    must(
      (await page.locator("img, iframe, object, embed, [onerror], [onload], a[href^='javascript'], body script:not([src])").count()) === 0,
      `${when}: the text became an element`,
    );
    must(dialogs === 0, `${when}: a dialog opened`);
    must(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${when}: the page scrolls sideways`);
  };
}

walk("hostile: every written thing of the bench takes anything and shows it as text", async ({ page, go, program }) => {
  const inert = trap(page);
  await go("/bench/Harbour%20Light");
  for (const label of [
    "cane spirit.*amount",
    "lime juice.*the whole line",
    "name of the part",
    "shaken cane, act",
    "target on strength",
    "glass",
    "bottle of",
  ]) {
    for (const text of hostile) {
      await page
        .getByRole("button", { name: new RegExp(`^${label}.*Change$`) })
        .first()
        .press("Enter");
      await page.locator("input:focus").fill(text);
      await page.locator("input:focus").press("Enter");
      await inert(`${label} with ${text.slice(0, 20)}`);
      if (await page.locator("input:focus").count()) await page.keyboard.press("Escape");
      await page.locator("input:focus").waitFor({ state: "detached" });
      // A name is taken as it is: then back to what it was.
      const undo = page.getByRole("button", { name: /^Undo, [1-9]/ });
      await page.waitForTimeout(30);
      if (await undo.count()) await undo.press("Enter");
      await page.getByRole("button", { name: "Undo, 0 steps" }).waitFor();
    }
  }
  await holds(async () => (await program.text("Harbour Light")).includes("45 mL cane spirit (40 %vol)"), "the text is as it was");
});

walk("hostile: a blank bench, a name, the search, the larder and the text take anything", async ({ page, go, program }) => {
  const inert = trap(page);
  await go("/bench");
  const lines = page.getByLabel("One thing a line, with its amount");
  for (const text of hostile) {
    await lines.fill(`${text}\n20 g ${text}`);
    await page.getByLabel("Lines as read").locator("li").first().waitFor();
    await inert(`lines with ${text.slice(0, 20)}`);
  }
  await lines.fill("20 g lime juice");
  await page.getByLabel("Call it").fill("<b>x</b>");
  await page.getByRole("button", { name: "Put it on the bench" }).click();
  await page.getByRole("heading", { level: 1, name: "<b>x</b>" }).waitFor();
  await inert("a formula named by markup");
  await put(program, hostile[1], 'bloomset = 1\ntitle = "<script>globalThis.trapped=1</script>"\n');
  await put(program, "\u202edesrever", 'bloomset = 1\ntitle = "\u202etfel"\n');
  await go("/shelf");
  await page.getByRole("link", { name: "<b>x</b>", exact: true }).waitFor();
  await page.getByRole("link", { name: hostile[1], exact: true }).waitFor();
  must((await page.locator(".shelf b b, .shelf li a b").count()) === 0, "the name is text");
  for (const text of [...hostile, "globalThis", '" OR 1=1 --', "«»"]) {
    await page.getByRole("searchbox").fill(text);
    await inert(`search of ${text.slice(0, 20)}`);
  }
  await page.getByRole("searchbox").fill("");
  await page.getByRole("link", { name: hostile[1], exact: true }).click();
  await page.getByRole("heading", { level: 1 }).filter({ hasText: "globalThis.trapped" }).waitFor();
  await inert("a formula titled by a script");

  await go("/larder/lime%20juice");
  await page.getByRole("button", { name: "Like this, but mine" }).click();
  const name = page.locator(".larder form input, .larder section input").first();
  for (const text of hostile) {
    await name.fill(text);
    await inert(`a larder name of ${text.slice(0, 20)}`);
  }
  await go("/larder");
  const find = page.getByRole("searchbox").first();
  for (const text of hostile) {
    await find.fill(text);
    await inert(`the larder searched for ${text.slice(0, 20)}`);
  }

  await go("/bench/Harbour%20Light");
  await page.getByRole("button", { name: "Text", exact: true }).click();
  const area = page.locator("#panel textarea");
  const whole = await area.inputValue();
  for (const text of hostile) {
    await area.fill(`${whole}\n${text}`);
    await page.waitForTimeout(100);
    await inert(`the text area with ${text.slice(0, 20)}`);
  }
});

walk(
  "hostile: the policy allows nothing inline, and the page needs nothing inline",
  async ({ page, program }) => {
    const answer = await page.goto(`${program.url}/bench/Harbour%20Light`, { waitUntil: "networkidle" });
    const policy = (await answer.allHeaders())["content-security-policy"] ?? "";
    must(
      /default-src 'none'/.test(policy) && /script-src 'self'/.test(policy) && /style-src 'self'/.test(policy),
      `the policy is “${policy}”`,
    );
    must(!/unsafe|\*|https?:/.test(policy), `the policy allows too much: “${policy}”`);
    const html = await answer.text();
    must(!/<script(?![^>]*\ssrc=)|\son\w+=|\sstyle=|<style/i.test(html), "nothing inline in the page");
    const ran = await page
      .evaluate(async () => {
        const script = document.createElement("script");
        script.textContent = "globalThis.trapped = 1";
        const refused = new Promise((done) =>
          addEventListener("securitypolicyviolation", (event) => done(event.violatedDirective), { once: true }),
        );
        document.body.append(script);
        const which = await Promise.race([refused, new Promise((done) => setTimeout(done, 2000, "none"))]);
        script.remove();
        return { which, trapped: globalThis.trapped };
      })
      .catch((fault) => ({ which: String(fault) }));
    must(ran.trapped === undefined && /script-src/.test(ran.which), `an inline script is refused: ${JSON.stringify(ran)}`);
  },
  { expected: /Content Security Policy/ },
);

walk("hostile: with the disk full the edit stays in the page and it says so", async ({ page, go, program }) => {
  // A small disk of its own, where this may be made; the shelf is served from it and filled up.
  const disk = `${program.folder}/disk`;
  spawnSync("mkdir", [disk]);
  if (spawnSync("mount", ["-t", "tmpfs", "-o", "size=4m", "tmpfs", disk]).status !== 0) {
    console.log("        skipped: no small disk can be mounted here");
    return;
  }
  try {
    await program.kill("SIGTERM");
    program.shelf = `${disk}/walk.shelf`;
    await program.start();
    await go("/bench/Harbour%20Light");
    spawnSync("dd", ["if=/dev/zero", `of=${disk}/full`, "bs=4096"], { stdio: "ignore" });
    const amount = () => page.getByRole("button", { name: /^cane spirit.*amount: / }).first();
    // What the shelf has kept for itself may take a few more.
    const trouble = page.getByRole("alert").filter({ hasText: "Not saved" });
    for (let i = 0; i < 60 && (await trouble.count()) === 0; i++) {
      await amount().press("Enter");
      await page.locator("input:focus").fill(`${46 + i} mL`);
      await page.locator("input:focus").press("Enter");
      await page.locator(".lintel .sub", { hasText: /^(saved|not saved)/ }).waitFor();
    }
    await trouble.waitFor();
    await page.getByText("What you wrote is kept here in the page").waitFor();
    await page.locator(".lintel .sub", { hasText: "not saved" }).waitFor();
    const written = /: (\d+ mL)/.exec(await amount().getAttribute("aria-label"))[1];
    must(!(await program.text("Harbour Light")).includes(`${written} cane`), "it is not on the shelf");
    spawnSync("rm", [`${disk}/full`]);
    await page.getByRole("button", { name: "Try again" }).click();
    await holds(async () => (await program.text("Harbour Light")).includes(`${written} cane`), "with room again, it is kept");
    await trouble.waitFor({ state: "detached" });
  } finally {
    await program.kill();
    spawnSync("umount", [disk]);
  }
});
