/** Made when the suite is bundled: reads every test file of this folder that can run in the flavour at hand. */
declare module 'editor-tests' {
  export function loadTests(): void;
}
