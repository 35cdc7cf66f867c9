/** The page may use its own style and nothing else: no script, no picture, no font, no request to anywhere. */
export async function contentPolicy(style: string): Promise<string> {
  const digest = await globalThis.crypto.subtle.digest('SHA-256', new TextEncoder().encode(style));
  const hash = btoa(String.fromCharCode(...new Uint8Array(digest)));
  return `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`;
}
