/** What the page lets a browser do. @module */

/** The page may use its own style and its own script and nothing else: no picture, no font, no code from text, no request to anywhere. */
export async function contentPolicy(style: string, script?: string): Promise<string> {
  const scripts = script === undefined ? '' : ` script-src ${await digestOf(script)};`;
  return `default-src 'none';${scripts} style-src ${await digestOf(style)}; base-uri 'none'; form-action 'none'`;
}

async function digestOf(text: string): Promise<string> {
  const digest = await globalThis.crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return `'sha256-${btoa(String.fromCharCode(...new Uint8Array(digest)))}'`;
}
