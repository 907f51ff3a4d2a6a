import tseslint from "typescript-eslint";

export default tseslint.config(
  { ignores: ["dist/**", "demo-output/**", "node_modules/**", "**/*.as.ts"] },
  ...tseslint.configs.recommendedTypeChecked,
  {
    languageOptions: {
      parserOptions: {
        projectService: { allowDefaultProject: ["eslint.config.js", ".dependency-cruiser.js"] },
      },
    },
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/switch-exhaustiveness-check": "error",
      "@typescript-eslint/consistent-type-imports": "error",
      "no-restricted-imports": [
        "error",
        { name: "opencv-wasm", message: "Import opencv-wasm in src/vision only." },
      ],
      eqeqeq: "error",
      "no-console": "error",
      "max-params": ["error", 5],
    },
  },
  { files: ["src/vision/**"], rules: { "no-restricted-imports": "off" } },
  // Compiled code takes numbers alone: its signatures are written by hand in AssemblyScript.
  { files: ["src/colour/simd/**", "src/raster/kernel/**"], rules: { "max-params": "off" } },
  // A row of a table of cases comes as so many parameters.
  { files: ["tests/**"], rules: { "max-params": "off" } },
  {
    files: ["tests/bench/**", "tests/study/**", "tests/**/*.script.ts", "sample-images/**"],
    rules: { "no-console": "off" },
  },
  { files: ["eslint.config.js", ".dependency-cruiser.js"], ...tseslint.configs.disableTypeChecked },
);
