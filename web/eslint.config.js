import js from "@eslint/js";
import svelte from "eslint-plugin-svelte";
import globals from "globals";
import ts from "typescript-eslint";
import svelteConfig from "./svelte.config.js";

// The page computes nothing: what a drink is, the engine says. Words and sizes of wire keys end in their unit.
const wireKey = "/_(g|ml|c|s|h|ms|percent|pct|kcal|mm|bar|bar_abs|bar_gauge|volumes|citric|sucrose|m3|activity|fraction|low|high|k)$/";
const arithmetic = "/^(\\*|\\/|%|\\+|-|\\*\\*)$/";
const physics = [
  {
    selector: "CallExpression[callee.object.name='Math'][callee.property.name=/^(exp|expm1|log|log2|log10|log1p|pow)$/]",
    message: "the engine computes; the page shows",
  },
  { selector: "BinaryExpression[operator='**'], AssignmentExpression[operator='**=']", message: "the engine computes; the page shows" },
  {
    selector: `BinaryExpression[operator=${arithmetic}] > MemberExpression[property.name=${wireKey}]`,
    message: "no arithmetic on what the engine answers",
  },
  {
    selector: `AssignmentExpression[operator=/^[-+*\\/%]=$/] > MemberExpression[property.name=${wireKey}]`,
    message: "no arithmetic on what the engine answers",
  },
];

export default ts.config(
  { ignores: ["dist", "node_modules", "src/api/types.ts"] },
  js.configs.recommended,
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  {
    languageOptions: { globals: { ...globals.browser, ...globals.node } },
    rules: {
      "no-undef": "off",
      "svelte/no-at-html-tags": "error",
      "svelte/no-navigation-without-resolve": "off",
      "svelte/prefer-svelte-reactivity": "off",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_" }],
    },
  },
  {
    files: ["**/*.svelte", "**/*.svelte.ts"],
    languageOptions: { parserOptions: { parser: ts.parser, extraFileExtensions: [".svelte"], svelteConfig } },
  },
  {
    files: ["src/**"],
    ignores: ["src/lib/format.ts", "src/picture/**", "src/**/*.test.ts"],
    rules: { "no-restricted-syntax": ["error", ...physics] },
  },
);
