import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

const program = process.env.BLOOMSET ?? "http://127.0.0.1:8420";

// The page is embedded in the program: few files, none inlined (the policy of the server allows no inline script or style).
export default defineConfig({
  plugins: [svelte()],
  build: {
    target: "es2023",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 400,
  },
  resolve: process.env.VITEST ? { conditions: ["browser"] } : {},
  // While working on the page: the program answers only to itself, so what the proxy sends on must look so.
  server: { proxy: { "/api": { target: program, changeOrigin: true, headers: { origin: program } } } },
  test: { environment: "node", include: ["src/**/*.test.ts"] },
});
