// walks.mjs PROGRAM [NAME] - what a cook does with the page, done in a browser against the program as shipped; ends with `N passed, N failed`.
import { runAll } from "./house.mjs";
import "./walk_bench.mjs";
import "./walk_counter.mjs";
import "./walk_hostile.mjs";
import "./walk_keys.mjs";
import "./walk_looks.mjs";
import "./walk_speed.mjs";

const [binary, only] = process.argv.slice(2);
process.exitCode = (await runAll(binary, only)) ? 0 : 1;
