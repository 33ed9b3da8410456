import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

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
  server: { proxy: { "/api": process.env.BLOOMSET ?? "http://127.0.0.1:8420" } },
  test: { environment: "happy-dom", include: ["src/**/*.test.ts"] },
});
