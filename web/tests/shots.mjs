// shots.mjs PROGRAM FOLDER - a picture of every page, at four widths, by day and by night. For looking at.
import { mkdir, rm } from "node:fs/promises";
import { browserOf, Program, windowOn } from "./house.mjs";

const [binary, folder] = process.argv.slice(2);
const pages = {
  bench: "/bench/Harbour%20Light",
  wreck: "/bench/Wreck",
  blank: "/bench",
  counter: "/counter/Harbour%20Light",
  shelf: "/shelf",
  larder: "/larder",
  kit: "/kit",
};
const widths = [390, 820, 1280, 1680];

await rm(folder, { recursive: true, force: true });
await mkdir(folder, { recursive: true });
const browser = await browserOf();
const program = await Program.open(binary);
for (const light of ["light", "dark"]) {
  for (const width of widths) {
    const window = await windowOn(browser, program, { width, height: width < 500 ? 844 : width < 1000 ? 1180 : 900, colorScheme: light });
    for (const [name, path] of Object.entries(pages)) {
      await window.go(path);
      await window.page.waitForTimeout(600);
      await window.page.screenshot({ path: `${folder}/${name}-${width}-${light}.png`, fullPage: true });
    }
    await window.close();
  }
}
await program.close();
await browser.close();
console.log(`pictures in ${folder}`);
